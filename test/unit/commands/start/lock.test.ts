import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { hostname, tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { isAlive, lockHolder, takeLock } from '@/lib/commands/start/lock.mjs'

let folder: string
let file: string

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sipwright-lock-'))
  file = join(folder, 'start.lock')
})

afterEach(() => {
  rmSync(folder, { recursive: true, force: true })
})

/** A pid that was alive a moment ago and is not now. */
const deadPid = () => spawnSync(process.execPath, ['-e', '']).pid

test('the second to come is told who holds the lock and what for', () => {
  expect(takeLock(file, 'building')).toMatchObject({ taken: true })
  expect(takeLock(file, 'building too')).toMatchObject({
    taken: false,
    holder: { pids: [process.pid], note: 'building' },
  })
  expect(statSync(file).mode & 0o777).toBe(0o600)
})

test('a lock given back is free, and nothing else is left in the folder', () => {
  const lock = takeLock(file, 'building')
  if (lock.taken) lock.release()
  expect(readdirSync(folder)).toEqual([])
  expect(takeLock(file, 'again')).toMatchObject({ taken: true })
})

test('the note and the processes of a lock can change while it is held', () => {
  const lock = takeLock(file, 'building')
  if (lock.taken) lock.update([process.pid], 'http://localhost:3000')
  expect(lockHolder(file)).toMatchObject({ note: 'http://localhost:3000' })
})

test('a lock left by a process that is gone is taken over', () => {
  writeFileSync(file, JSON.stringify({ host: hostname(), pids: [deadPid()], born: [null], note: 'building' }))
  expect(lockHolder(file)).toBeNull()
  expect(takeLock(file, 'mine')).toMatchObject({ taken: true })
  expect(readFileSync(file, 'utf8')).toContain('"mine"')
})

test('a lock cut off by a power cut is taken over', () => {
  writeFileSync(file, '{"host":"ki')
  expect(takeLock(file, 'mine')).toMatchObject({ taken: true })
})

test('a process that got the number of a dead one does not hold its lock', () => {
  expect(isAlive({ host: hostname(), pids: [process.pid], born: ['1'], note: '' })).toBe(false)
  expect(isAlive({ host: hostname(), pids: [process.pid], born: [null], note: '' })).toBe(true)
})

test('a process that has ended and that nobody has collected holds nothing', async () => {
  // the shell starts a child that ends at once, and never asks for it; then it sleeps on as something that does not ask either
  const shell = spawn('sh', ['-c', 'sleep 0 & echo $!; exec sleep 600'], { stdio: ['ignore', 'pipe', 'inherit'] })
  const pid = Number(String((await once(shell.stdout, 'data'))[0]).trim())
  const stat = `/proc/${pid}/stat`
  try {
    if (!existsSync(stat)) return // only Linux tells
    while (!/\) Z /.test(readFileSync(stat, 'utf8'))) await new Promise((resolve) => setTimeout(resolve, 20))
    expect(() => process.kill(pid, 0)).not.toThrow()
    writeFileSync(file, JSON.stringify({ host: hostname(), pids: [pid], born: [null], note: 'serving' }))
    expect(lockHolder(file)).toBeNull()
    expect(takeLock(file, 'mine')).toMatchObject({ taken: true })
  } finally {
    shell.kill('SIGKILL')
  }
})

test('what a start left behind that was ended while it took the lock goes with the next start', () => {
  writeFileSync(`${file}.${deadPid()}.0a1b2c3d`, '')
  writeFileSync(`${file}.${deadPid()}.0a1b2c3d.stale`, '')
  writeFileSync(`${file}.${process.pid}.0a1b2c3d`, 'another start, at work')
  writeFileSync(`${file}.notes`, 'not ours')
  expect(takeLock(file, 'mine')).toMatchObject({ taken: true })
  expect(readdirSync(folder).sort()).toEqual(['start.lock', `start.lock.${process.pid}.0a1b2c3d`, 'start.lock.notes'])
})

test('a lock lives as long as one of its processes does', () => {
  expect(isAlive({ host: hostname(), pids: [deadPid(), process.pid], born: [null, null], note: '' })).toBe(true)
})

test('a lock from another machine, such as a container that was replaced, is dead', () => {
  expect(isAlive({ host: 'elsewhere', pids: [process.pid], born: [null], note: '' })).toBe(false)
})

test('of eight processes that find a dead lock at once, one takes it', async () => {
  writeFileSync(file, JSON.stringify({ host: hostname(), pids: [deadPid()], born: [null], note: 'building' }))
  const lockModule = pathToFileURL('lib/commands/start/lock.mjs').href
  const script = `
    import { takeLock } from ${JSON.stringify(lockModule)}
    console.log(takeLock(process.argv[1], 'racing').taken)
    process.stdin.resume()`
  const racers = Array.from({ length: 8 }, () => spawn(process.execPath, ['--input-type=module', '-e', script, file]))
  const said = await Promise.all(racers.map(async (racer) => String((await once(racer.stdout, 'data'))[0]).trim()))
  for (const racer of racers) racer.kill()
  expect(said.filter((word) => word === 'true')).toHaveLength(1)
})
