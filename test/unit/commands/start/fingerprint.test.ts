import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { BUILD_PATHS, fingerprint } from '@/lib/commands/start/fingerprint.mjs'

let root: string

function put(path: string, text: string): void {
  mkdirSync(dirname(join(root, path)), { recursive: true })
  writeFileSync(join(root, path), text)
}

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'sipwright-print-'))
  put('package.json', '{}')
  put('app/page.tsx', 'export default 1')
  put('lib/stats/mean.ts', 'export const a = 1')
})

afterEach(() => {
  rmSync(root, { recursive: true, force: true })
})

const now = () => fingerprint(root, BUILD_PATHS)

test('the same files give the same name, whatever their dates', () => {
  const before = now()
  utimesSync(join(root, 'app/page.tsx'), new Date(0), new Date(0))
  expect(now()).toBe(before)
  expect(before).toMatch(/^[0-9a-f]{16}$/)
})

test.each<[string, () => void]>([
  ['changed', () => put('app/page.tsx', 'export default 2')],
  ['added', () => put('app/new/page.tsx', '')],
  ['renamed', () => (rmSync(join(root, 'lib/stats/mean.ts')), put('lib/stats/average.ts', 'export const a = 1'))],
  ["the phone's bundler", () => put('lib/commands/phone-bundle.mjs', 'x')],
  ["the worker's bundler", () => put('lib/commands/worker-bundle.mjs', 'x')],
  ['removed', () => rmSync(join(root, 'lib/stats/mean.ts'))],
  [
    'moved from one file into the next',
    () => (put('app/page.tsx', ''), put('lib/stats/mean.ts', 'export default 1export const a = 1')),
  ],
])('a source that is %s gives another', (_, change) => {
  const before = now()
  change()
  expect(now()).not.toBe(before)
})

test('commands, the generated client, tests and hidden files do not count: no page holds them', () => {
  const before = now()
  put('lib/commands/start.mjs', 'x')
  put('lib/db/generated/client.ts', 'x')
  put('test/unit/a.test.ts', 'x')
  put('app/.swp', 'x')
  expect(now()).toBe(before)
})

test('what decides besides files is part of the name', () => {
  expect(fingerprint(root, ['package.json'], ['linux x64 115'])).not.toBe(
    fingerprint(root, ['package.json'], ['linux x64 127']),
  )
})
