import { chmodSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { runLogged, stopChildren } from '@/lib/commands/start/child.mjs'

let folder: string
let log: string

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sipwright-child-'))
  log = join(folder, 'logs', 'build.log')
})

afterEach(() => {
  rmSync(folder, { recursive: true, force: true })
})

const run = (script: string) => runLogged(process.execPath, ['-e', script], { cwd: folder, log })
const modeOf = (file: string) => statSync(file).mode & 0o777

test('what a program says is kept in a log that only its owner reads, with the program’s exit code', async () => {
  expect(await run('console.log("out"); console.error("err"); process.exit(3)')).toBe(3)
  expect(readFileSync(log, 'utf8')).toBe('out\nerr\n')
  expect(modeOf(log)).toBe(0o600)
})

test('a log that others could read is made private when it is written again', async () => {
  await run('')
  writeFileSync(log, 'of an older version')
  chmodSync(log, 0o644)
  await run('console.log("new")')
  expect(readFileSync(log, 'utf8')).toBe('new\n')
  expect(modeOf(log)).toBe(0o600)
})

test('a program that cannot be started ends with 127', async () => {
  expect(await runLogged(join(folder, 'no-such-program'), [], { cwd: folder, log })).toBe(127)
})

test('stopping ends a program and what it has started itself', async () => {
  const script = `
    const inner = require('node:child_process').spawn(process.execPath, ['-e', 'setInterval(() => {}, 1000)'])
    console.log(inner.pid)
    process.on('SIGTERM', () => {})
    setInterval(() => {}, 1000)`
  const ended = run(script)
  const said = async (): Promise<number> => {
    for (;;) {
      const pid = Number(readFileSync(log, 'utf8').trim())
      if (pid > 0) return pid
      await new Promise((resolve) => setTimeout(resolve, 20))
    }
  }
  const inner = await said()
  await stopChildren()
  expect(await ended).not.toBe(0)
  await gone(inner)
})

/** Waits as long as it takes: a test that hangs here has found an orphan. */
async function gone(pid: number): Promise<void> {
  for (;;) {
    try {
      process.kill(pid, 0)
    } catch {
      return
    }
    if (/\) [ZX] /.test(readFileSync(`/proc/${pid}/stat`, 'utf8'))) return
    await new Promise((resolve) => setTimeout(resolve, 20))
  }
}
