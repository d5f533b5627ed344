import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { keepSecret } from '@/lib/commands/start/secret.mjs'

let folder: string
let file: string

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sipwright-secret-'))
  file = join(folder, '.data', 'secret')
})

afterEach(() => {
  rmSync(folder, { recursive: true, force: true })
})

test('a secret is made once, long, and readable by its owner alone', () => {
  const secret = keepSecret(file)
  expect(secret).toMatch(/^[\w-]{64}$/)
  expect(keepSecret(file)).toBe(secret)
  expect(statSync(file).mode & 0o777).toBe(0o600)
  expect(statSync(join(folder, '.data')).mode & 0o777).toBe(0o700)
  expect(readdirSync(join(folder, '.data'))).toEqual(['secret'])
})

test('two cafés have two secrets', () => {
  expect(keepSecret(file)).not.toBe(keepSecret(join(folder, 'other', 'secret')))
})

test('a damaged secret is named and kept for a look', () => {
  keepSecret(file)
  writeFileSync(file, 'oops')
  expect(() => keepSecret(file)).toThrow(`${file} is damaged`)
  expect(readFileSync(file, 'utf8')).toBe('oops')
})
