/** The whole app as `npm start` runs it, or with `words` as another of our scripts does, on a database and a port of its own. */
import { spawn } from 'node:child_process'
import { randomBytes } from 'node:crypto'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

export type App = {
  /** http://localhost:PORT */
  readonly address: string
  readonly port: number
  /** One-time link for the first owner; null when the house is set up. */
  readonly setUpLink: string | null
  readonly databaseUrl: string
  /** Everything the command printed so far. */
  printed(): string
  /** Stops the app; the database stays, so that it can be started again with `startApp({ databaseUrl })`. */
  stop(): Promise<void>
  /** Stops the app and removes its database. */
  throwAway(): Promise<void>
}

export async function startApp(
  wanted: { databaseUrl?: string; env?: Readonly<Record<string, string>>; words?: readonly string[] } = {},
): Promise<App> {
  const port = await freePort()
  const folder = wanted.databaseUrl === undefined ? mkdtempSync(join(tmpdir(), 'sipwright-app-')) : null
  const databaseUrl = wanted.databaseUrl ?? `file:${folder}/kiosk.db`
  const child = spawn(process.execPath, ['lib/commands/start.mjs', ...(wanted.words ?? [])], {
    env: {
      ...process.env,
      NODE_ENV: 'production',
      NEXT_BUILD_PREFIX: '.next-e2e',
      PORT: String(port),
      DATABASE_URL: databaseUrl,
      AUTH_SECRET: randomBytes(48).toString('base64url'),
      PUBLIC_URL: '',
      SETUP_LINK: 'print', // its reader is the test
      ...wanted.env,
    },
    // the channel ends it with this process, should a test run be broken off
    stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
  })
  let printed = ''
  const ready = new Promise<string>((resolve, reject) => {
    const listen = (bytes: Buffer) => {
      printed += bytes.toString()
      const said = /ready at (http\S+?)(?:\. .*)?\n/.exec(printed)
      if (said?.[1] !== undefined) resolve(said[1])
    }
    child.stdout?.on('data', listen)
    child.stderr?.on('data', listen)
    child.once('exit', (code) => reject(new Error(`npm start ended with ${code}:\n${printed}`)))
  })
  const stop = async () => {
    if (child.exitCode !== null || child.signalCode !== null) return
    child.kill('SIGTERM')
    await once(child, 'exit')
  }
  const address = await ready
  const setUpLink = /http\S+\/setup\/\S+/.exec(printed)?.[0] ?? null
  return {
    address,
    port,
    setUpLink,
    databaseUrl,
    printed: () => printed,
    stop,
    throwAway: async () => {
      await stop()
      if (folder) rmSync(folder, { recursive: true, force: true })
    },
  }
}

export async function freePort(): Promise<number> {
  const probe = createServer()
  probe.listen(0)
  await once(probe, 'listening')
  const address = probe.address()
  probe.close()
  await once(probe, 'close')
  if (typeof address !== 'object' || address === null) throw new Error('no port')
  return address.port
}
