/** What stands before a house that has https: the proxy of README where it is installed, and Node's own where it is not. */
import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { request as forward } from 'node:http'
import { createServer, request as ask, type RequestOptions } from 'node:https'
import type { IncomingHttpHeaders } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { text } from 'node:stream/consumers'
import { setTimeout as pause } from 'node:timers/promises'
import { freePort } from './app'

export interface Proxy {
  readonly port: number
  /** the certificate that its visitors are to trust */
  readonly ca: string
  close(): Promise<void>
}

export const isCaddyHere = () => spawnSync('caddy', ['version']).status === 0

/** The configuration that README gives, to the letter. */
export function configurationOfReadme(): string {
  const found = /```caddyfile\n([\s\S]*?)```/.exec(readFileSync('README.md', 'utf8'))?.[1]
  if (!found) throw new Error('README gives no configuration')
  return found
}

/**
 * The proxy of README on this computer alone: its address and the house's are put in place of the example's, and before it
 * stands where to keep its certificates, so that nothing of this computer is touched.
 */
export async function openCaddy(port: number, house: number): Promise<Proxy> {
  const folder = mkdtempSync(join(tmpdir(), 'sipwright-https-'))
  const site = configurationOfReadme()
    .replaceAll('192.168.1.20', '127.0.0.1')
    .replaceAll('127.0.0.1:3000', `127.0.0.1:${house}`)
  const own = [
    'admin off',
    'skip_install_trust',
    `http_port ${await freePort()}`,
    `https_port ${port}`,
    `storage file_system ${folder}`,
  ]
  writeFileSync(join(folder, 'Caddyfile'), `{\n${own.join('\n')}\n}\n${site}`)
  const words = ['run', '--config', join(folder, 'Caddyfile'), '--adapter', 'caddyfile']
  const child = spawn('caddy', words, {
    stdio: 'ignore',
    env: { ...process.env, XDG_DATA_HOME: folder, XDG_CONFIG_HOME: folder },
  })
  const root = join(folder, 'pki/authorities/local/root.crt')
  const close = async () => {
    child.kill('SIGTERM')
    if (child.exitCode === null && child.signalCode === null) await once(child, 'exit')
    rmSync(folder, { recursive: true, force: true })
  }
  for (;;) {
    if (child.exitCode !== null) throw new Error('the proxy does not start with this configuration')
    const ca = existsSync(root) ? readFileSync(root, 'utf8') : ''
    const answers = ca !== '' && (await askSafely(port, ca, '/').then(Boolean, () => false))
    if (answers) return { port, ca, close }
    await pause(50)
  }
}

/** The same in a few lines of Node: says who asks and by what, and believes nobody who says so before it. */
export async function openStandIn(port: number, house: number): Promise<Proxy> {
  const both = readFileSync('test/fixtures/https-for-tests.pem', 'utf8')
  const server = createServer({ key: both, cert: both }, (request, response) => {
    const said = { ...request.headers }
    for (const name of Object.keys(said)) if (/^(forwarded|x-real-ip|x-forwarded-.+)$/.test(name)) delete said[name]
    said['x-forwarded-for'] = request.socket.remoteAddress?.replace('::ffff:', '') ?? ''
    said['x-forwarded-proto'] = 'https'
    said['x-forwarded-host'] = request.headers.host ?? ''
    const { method, url: path } = request
    const onward = forward({ host: '127.0.0.1', port: house, method, path, headers: said }, (answer) => {
      response.writeHead(answer.statusCode ?? 502, answer.headers)
      answer.pipe(response)
    })
    request.pipe(onward)
  }).listen(port, '127.0.0.1')
  await once(server, 'listening')
  return {
    port,
    ca: both,
    close: async () => {
      server.closeAllConnections()
      server.close()
      await once(server, 'close')
    },
  }
}

export interface Heard {
  readonly status: number
  readonly headers: IncomingHttpHeaders
  readonly body: string
}

/** Asks by https, and believes no certificate but those of this one authority. */
export async function askSafely(
  port: number,
  ca: string,
  path: string,
  options: RequestOptions & { readonly send?: string } = {},
): Promise<Heard> {
  const { send, ...more } = options
  const asking = ask({ host: '127.0.0.1', port, ca, path, agent: false, ...more })
  asking.end(send)
  const [answer] = await once(asking, 'response')
  return { status: answer.statusCode, headers: answer.headers, body: await text(answer) }
}
