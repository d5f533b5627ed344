import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { hostname, tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { addressAndFolder, noteOf, noteRunning, runningApps } from '@/lib/commands/start/running.mjs'

let data: string

beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'sipwright-running-'))
})

afterEach(() => {
  rmSync(data, { recursive: true, force: true })
})

const dead = () => {
  const { pid } = spawnSync(process.execPath, ['-e', ''])
  return { pid, text: JSON.stringify({ host: hostname(), pids: [pid], born: [null], note: 'http://localhost:1 x' }) }
}

test('an app is known by its address and the folder it serves from', () => {
  expect(noteRunning(data, 'http://localhost:3000', '.next-build-a')).toMatchObject({ taken: true })
  expect(runningApps(data)).toEqual([{ pid: process.pid, address: 'http://localhost:3000', folder: '.next-build-a' }])
  expect(addressAndFolder(noteOf('http://localhost:3000', '.next-build-a'))).toEqual({
    address: 'http://localhost:3000',
    folder: '.next-build-a',
  })
})

test('what apps left behind that were ended by force is swept at the next start', () => {
  mkdirSync(join(data, 'running'))
  for (let n = 0; n < 3; n++) {
    const { pid, text } = dead()
    writeFileSync(join(data, 'running', `${pid}.lock`), text)
    writeFileSync(join(data, 'running', `${pid}.lock.${pid}.0a1b2c3d`), text)
  }
  writeFileSync(join(data, 'running', '1.lock'), '{"host":"ki')
  noteRunning(data, 'http://localhost:3000', '.next-build-a')
  expect(readdirSync(join(data, 'running'))).toEqual([`${process.pid}.lock`])
})
