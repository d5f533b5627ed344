/**
 * `npm start` makes a chain: npm, perhaps a shell, our start, the server. Whoever of them ends or is signalled, all of them end,
 * and the next start is not in anybody's way. Waits for what happens, never for a time.
 */
import { spawn, spawnSync, type ChildProcess } from 'node:child_process'
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest'
import { freePort } from '../support/app'
import { ask } from '../support/ask'

type Who = 'npm' | 'the shell' | 'our start' | 'the server'
type Chain = Readonly<Partial<Record<Who, number>>>

let folder: string
let port: number
let npm: ChildProcess | undefined

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'sipwright-chain-'))
  port = await freePort()
  // a shell that stays while its command runs, as some do
  writeFileSync(join(folder, 'shell'), '#!/bin/sh\n/bin/sh "$@"\nexit $?\n')
  chmodSync(join(folder, 'shell'), 0o755)
})

afterEach(() => {
  npm?.kill('SIGKILL')
})

afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** Every row starts on the port and the database of the one before: what was left would stop it. */
async function startByNpm(shellStays: boolean): Promise<Chain> {
  const env = {
    ...process.env,
    NODE_ENV: 'production' as const,
    NEXT_BUILD_PREFIX: '.next-e2e',
    PORT: String(port),
    DATABASE_URL: `file:${folder}/kiosk.db`,
    AUTH_SECRET: 'forty characters that are no secret at all',
    PUBLIC_URL: '',
  }
  const words = ['start', ...(shellStays ? [`--script-shell=${join(folder, 'shell')}`] : [])]
  const started = spawn('npm', words, { env, detached: true, stdio: ['ignore', 'pipe', 'pipe'] })
  npm = started
  let printed = ''
  await new Promise<void>((resolve, reject) => {
    for (const stream of [started.stdout, started.stderr]) {
      stream.on('data', (bytes: Buffer) => {
        printed += bytes.toString()
        if (printed.includes('Sipwright is ready at')) resolve()
      })
    }
    started.once('exit', (code) => reject(new Error(`npm start ended with ${code}:\n${printed}`)))
  })
  return chainFrom(started.pid ?? 0)
}

function chainFrom(pid: number): Chain {
  const rows = spawnSync('ps', ['-e', '-o', 'pid=,ppid=,command='], { encoding: 'utf8' }).stdout.trim().split('\n')
  const processes = rows.map((row) => /^\s*(\d+)\s+(\d+)\s+(.*)/.exec(row)?.slice(1) ?? [])
  const below = (parent: number): { pid: number; command: string }[] =>
    processes
      .filter(([, ppid]) => Number(ppid) === parent)
      .flatMap(([own, , command]) => [{ pid: Number(own), command: command ?? '' }, ...below(Number(own))])
  const found = below(pid)
  const at = (words: RegExp) => found.find(({ command }) => words.test(command))?.pid
  const [shell, start, server] = [
    at(/^\/?\S*sh /),
    at(/^\S*node lib\/commands\/start\.mjs/),
    at(/^(sipwright|next)-server/),
  ]
  return {
    npm: pid,
    ...(shell === undefined ? {} : { 'the shell': shell }),
    ...(start === undefined ? {} : { 'our start': start }),
    ...(server === undefined ? {} : { 'the server': server }),
  }
}

function isThere(pid: number): boolean {
  const state = spawnSync('ps', ['-o', 'state=', '-p', String(pid)], { encoding: 'utf8' }).stdout.trim()
  return state !== '' && !state.startsWith('Z') && !state.startsWith('X')
}

test.each([
  ['npm', 'SIGTERM', false],
  ['npm', 'SIGINT', false],
  ['npm', 'SIGHUP', false],
  ['npm', 'SIGKILL', false],
  ['npm', 'SIGTERM', true],
  ['npm', 'SIGKILL', true],
  ['the shell', 'SIGTERM', true],
  ['the shell', 'SIGKILL', true],
  ['our start', 'SIGTERM', false],
  ['our start', 'SIGHUP', false],
  ['our start', 'SIGKILL', false],
  ['the server', 'SIGTERM', false],
  ['the server', 'SIGKILL', false],
] as const)('%s gets %s (a shell that stays: %s), and all have ended', async (who, signal, shellStays) => {
  const chain = await startByNpm(shellStays)
  expect(chain).toMatchObject({ 'our start': expect.any(Number), 'the server': expect.any(Number) })
  const pid = chain[who]
  if (pid === undefined) throw new Error(`there is no ${who} among ${JSON.stringify(chain)}`)
  process.kill(pid, signal)
  for (const one of Object.values(chain)) while (isThere(one)) await pause(50)
  await expect(ask(`http://127.0.0.1:${port}/`)).rejects.toThrow()
})
