/** A short `npm run torture`: what a house acknowledged it keeps, whatever happens to it. Waits for what happens, never for a time. */
import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { text } from 'node:stream/consumers'
import { afterAll, beforeAll, expect, test } from 'vitest'

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'sipwright-short-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

test('three ends by force, a signal each, a full disk, a held database, a clock set back and a close lose no score', async () => {
  const words = '--seed 5 --phones 12 --kills 3 --signals 1 --lock 3 --closes 1'.split(' ')
  const child = spawn(process.execPath, ['lib/commands/start.mjs', '--run', 'lib/commands/torture.ts', ...words], {
    env: { ...process.env, NEXT_BUILD_PREFIX: '.next-e2e', PORT: '', DATABASE_URL: `file:${folder}/none.db` },
    // the channel ends it with this process, should a test run be broken off
    stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
  })
  const ended = new Promise((resolve) => child.once('exit', resolve))
  const [table, progress, code] = await Promise.all([text(child.stdout!), text(child.stderr!), ended])
  const rows = table.split('\n').filter((line) => /^\| (?!what|-)/.test(line))
  const told = (row: string) => row.split('|').map((cell) => cell.trim())
  expect(rows, progress).toHaveLength(6)
  for (const row of rows) {
    const [, what, times, acknowledged, lost, doubled, , , verdict] = told(row)
    if (verdict?.startsWith('not done: no small disk')) continue
    expect([lost, doubled, verdict], what).toEqual(['0', '0', 'kept'])
    expect([Number(times) > 0, Number(acknowledged) > 0], what).toEqual([true, true])
  }
  expect(code).toBe(0)
})
