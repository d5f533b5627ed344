import { chmodSync, existsSync, mkdtempSync, readFileSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs'
import { once } from 'node:events'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Readable } from 'node:stream'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openLog } from '@/lib/commands/start/log.mjs'

/** Linux keeps a file that is always full. */
const FULL = '/dev/full'
const noon = new Date('2026-11-25T12:00:00Z')

let folder: string
let file: string
let elsewhere: string
const instead = { write: (bytes: string | Uint8Array) => (elsewhere += Buffer.from(bytes).toString()) }

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sipwright-log-'))
  file = join(folder, 'server.log')
  elsewhere = ''
})

afterEach(() => {
  rmSync(folder, { recursive: true, force: true })
})

const read = () => readFileSync(file, 'utf8')

async function end(log: ReturnType<typeof openLog>): Promise<void> {
  log.end()
  await once(log, 'finish')
}

test('a log goes on where it stopped, and only its owner reads it, also when it was open to others before', async () => {
  writeFileSync(file, 'of yesterday\n')
  chmodSync(file, 0o644)
  const log = openLog(file, { instead })
  log.write('of today\n')
  await end(log)
  expect(read()).toBe('of yesterday\nof today\n')
  expect(statSync(file).mode & 0o777).toBe(0o600)
  expect(elsewhere).toBe('')
})

test.runIf(existsSync(FULL))(
  'on a full disk lines go elsewhere, nothing fails, and the log says so when there is room again',
  async () => {
    symlinkSync(FULL, file)
    const mode = statSync(FULL).mode
    const log = openLog(file, { instead, now: () => noon, tryAgainMs: 1 })
    log.write('{"fault":"m9cKOFPt"}\n')
    log.write('{"fault":"q2xLOFPt"}\n')
    expect(elsewhere).toBe(
      `${file} cannot be written (the disk is full): what belongs there comes here.\n{"fault":"m9cKOFPt"}\n{"fault":"q2xLOFPt"}\n`,
    )
    expect(statSync(FULL).mode).toBe(mode)

    rmSync(file)
    while (!existsSync(file) || read() === '') await new Promise((resolve) => setTimeout(resolve, 5))
    log.write('and on\n')
    await end(log)
    expect(read()).toBe(
      `${noon.toISOString()} This log can be written again. 2 entries are missing since ${noon.toISOString()} (the disk is full); the error stream had them.\nand on\n`,
    )
  },
)

test('a log whose folder is gone is made again', async () => {
  const log = openLog(join(folder, 'logs', 'server.log'), { instead })
  log.write('one\n')
  await end(log)
  expect(readFileSync(join(folder, 'logs', 'server.log'), 'utf8')).toBe('one\n')
})

test('what cannot be opened at all is told once, with the system’s word for it', async () => {
  const log = openLog(folder, { instead, tryAgainMs: 60_000 })
  Readable.from(['a\n', 'b\n']).pipe(log)
  await once(log, 'finish')
  expect(elsewhere).toBe(`${folder} cannot be written (EISDIR): what belongs there comes here.\na\nb\n`)
})
