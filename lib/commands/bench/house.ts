import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { createServer } from 'node:net'
import { keep } from '../start/child.mjs'

const PATIENCE_MS = 15 * 60_000 // it may have to build first

export interface ServedHouse {
  readonly address: string
  /** the start; the server is its child */
  readonly pid: number
  stop(): Promise<void>
}

/**
 * Starts the built app on a database of its own; it is stopped with this process.
 *
 * @param more  variables beside those of this process. PORT: a free one if it is set nowhere
 */
export async function startHouse(
  databaseUrl: string,
  more: Readonly<Record<string, string>> = {},
): Promise<ServedHouse> {
  const port = Number(more['PORT'] ?? process.env['PORT']) || (await freePort())
  const env = { ...process.env, ...more, PORT: String(port), DATABASE_URL: databaseUrl, PUBLIC_URL: '' }
  const child = keep(
    spawn(process.execPath, ['lib/commands/start.mjs'], { env, stdio: ['ignore', 'pipe', 'inherit', 'ipc'] }),
  )
  const stop = async () => {
    if (child.exitCode !== null || child.signalCode !== null) return
    const gone = once(child, 'exit')
    child.kill('SIGTERM')
    await gone
  }
  let said = ''
  const ready = new Promise<void>((resolve, reject) => {
    child.stdout?.on('data', (bytes: Buffer) => {
      said += bytes.toString()
      if (said.includes('ready at')) resolve()
    })
    child.once('exit', (code) => reject(new Error(`the house ended with ${code}: ${said}`)))
    setTimeout(() => reject(new Error('the house was not ready in a quarter of an hour')), PATIENCE_MS).unref()
  })
  try {
    await ready
  } catch (error) {
    await stop()
    throw error
  }
  return { address: `http://127.0.0.1:${port}`, pid: child.pid ?? 0, stop }
}

export async function freePort(): Promise<number> {
  const probe = createServer().listen(0, '127.0.0.1')
  await once(probe, 'listening')
  const address = probe.address()
  probe.close()
  if (typeof address !== 'object' || address === null) throw new Error('there is no free port')
  return address.port
}
