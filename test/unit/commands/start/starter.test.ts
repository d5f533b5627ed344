import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { findStarters } from '@/lib/commands/start/starter.mjs'

const variables = { npm_lifecycle_script: 'node lib/commands/start.mjs', npm_execpath: '/usr/lib/npm/bin/npm-cli.js' }
const see = (processes: Record<number, { parent: number; command: string }>) => (pid: number) => processes[pid] ?? null

test('npm that starts us itself is the one to watch, under its own name or as Node with its file', () => {
  for (const command of ['npm start', 'node /usr/lib/npm/bin/npm-cli.js start'])
    expect(findStarters(20, variables, see({ 20: { parent: 10, command } }))).toEqual([20])
})

test('a shell that npm put between is watched, and npm above it', () => {
  const shell = { parent: 20, command: 'sh -c node lib/commands/start.mjs' }
  expect(findStarters(30, variables, see({ 20: { parent: 10, command: 'npm start' }, 30: shell }))).toEqual([30, 20])
})

test('nobody is watched who did not start us for npm: a shell at a keyboard, a test, what keeps services', () => {
  const bash = { 20: { parent: 10, command: '-bash' } }
  expect(findStarters(20, {}, see(bash))).toEqual([])
  expect(findStarters(20, variables, see(bash))).toEqual([])
  expect(findStarters(1, variables, see({ 1: { parent: 0, command: 'npm start' } }))).toEqual([])
  expect(findStarters(20, variables, see({ 20: { parent: 1, command: 'sh -c node lib/commands/start.mjs' } }))).toEqual(
    [],
  )
  expect(findStarters(20, variables, see({}))).toEqual([])
})

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'sipwright-starter-'))
  writeFileSync(
    join(folder, 'house.mjs'),
    `import { whenStartersGo } from ${JSON.stringify(pathToFileURL('lib/commands/start/starter.mjs').href)}
     whenStartersGo(() => { console.log('ended'); process.exit() })
     setInterval(() => {}, 1000)
     console.log('up ' + process.pid + ' ' + process.ppid)`,
  )
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** A chain as npm makes it: a process that is called npm, a shell that stays or not, and our start. */
function startChain({ shellStays }: { shellStays: boolean }) {
  const script = `node ${join(folder, 'house.mjs')}`
  const words = shellStays ? `${script}; true` : `exec ${script}`
  const npm = `
    process.title = 'npm start'
    const { spawn } = require('node:child_process')
    const env = { ...process.env, npm_lifecycle_script: ${JSON.stringify(words)} }
    spawn('sh', ['-c', ${JSON.stringify(words)}], { stdio: 'inherit', env })
    setInterval(() => {}, 1000)`
  return spawn(process.execPath, ['-e', npm], { stdio: ['ignore', 'pipe', 'inherit'] })
}

test.each([
  ['npm', 'SIGKILL', false],
  ['npm', 'SIGHUP', false],
  ['npm', 'SIGKILL', true],
  ['the shell', 'SIGTERM', true],
  ['the shell', 'SIGKILL', true],
] as const)(
  'when %s ends by %s, with a shell that stays: %s, so does what it started',
  async (who, signal, shellStays) => {
    const npm = startChain({ shellStays })
    let said = ''
    npm.stdout.on('data', (bytes) => (said += bytes))
    while (!/^up \d+ \d+\n/.test(said)) await once(npm.stdout, 'data')
    const [, , parent] = said.split(/\s/)
    process.kill(who === 'npm' ? (npm.pid ?? 0) : Number(parent), signal)
    const closed = once(npm.stdout, 'close') // when everybody who could write there has ended
    if (who !== 'npm') {
      while (!said.includes('ended')) await once(npm.stdout, 'data')
      npm.kill('SIGKILL')
    }
    await closed
    expect(said).toMatch(/^up \d+ \d+\nended\n$/)
  },
)
