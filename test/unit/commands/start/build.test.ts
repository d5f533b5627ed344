import { mkdirSync, mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { buildFolder, isBuilt, tidyBuilds } from '@/lib/commands/start/build.mjs'

let root: string

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'sipwright-build-'))
})

afterEach(() => {
  rmSync(root, { recursive: true, force: true })
})

const named = (digit: string, prefix = '.next-build') => `${prefix}-${digit.repeat(16)}`

function put(name: string, day: number): string {
  mkdirSync(join(root, name))
  utimesSync(join(root, name), day * 86_400, day * 86_400)
  return name
}

test('a folder cut off in the middle of a build does not count as built', () => {
  const folder = put(buildFolder(root, '.next-build'), 1)
  expect(isBuilt(root, folder)).toBe(false)
  writeFileSync(join(root, folder, 'sipwright-build-is-whole'), '')
  expect(isBuilt(root, folder)).toBe(true)
})

test('the present build, the one before and whatever is being served are kept; the rest goes', () => {
  for (const [digit, day] of [
    ['a', 1],
    ['b', 2],
    ['c', 3],
    ['d', 4],
  ] as const)
    put(named(digit), day)
  put(named('e', '.next-e2e'), 1)
  put('.next', 1)
  put('.next-build-by-hand', 1)
  tidyBuilds(root, named('b'), new Set([named('a')]))
  expect(readdirSync(root).sort()).toEqual(
    ['.next', '.next-build-by-hand', named('a'), named('b'), named('d'), named('e', '.next-e2e')].sort(),
  )
})
