/**
 * The process that answers requests: our door, and Next behind it. `lib/commands/start/serve.mjs` starts it with
 * everything in its environment.
 */
import { fileURLToPath } from 'node:url'
import next from 'next'
import { readEnvironment } from '../../base/read-environment.mjs'
import { serveThrough } from './serve-through.mjs'

process.title = 'sipwright-server'
const root = fileURLToPath(new URL('../../..', import.meta.url)).replace(/[/\\]$/, '')
const read = readEnvironment(process.env, root)
if (!read.ok) throw new Error(read.problem)
const { port, publicUrl, proxies } = read.value
const isDev = process.env.NODE_ENV === 'development'

// where an act fetches the page it leads to; Next would believe the name that the browser gave
process.env.__NEXT_PRIVATE_ORIGIN = `http://localhost:${port}`

// the pages and the acts: their own server is never reached but through the door
const pages = next({ dev: isDev, dir: root, port })
await pages.prepare()
const server = serveThrough(port, pages.getRequestHandler(), { isDev, publicUrl, proxies })
if (isDev) {
  const upgrade = pages.getUpgradeHandler()
  server.on('upgrade', (request, socket, head) => void upgrade(request, socket, head))
}
