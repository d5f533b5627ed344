/** The door as a process of its own, before a small house. */
import { spawn, type ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import { connect, createServer } from 'node:net'
import { text } from 'node:stream/consumers'
import { pathToFileURL } from 'node:url'
import { expect, test } from 'vitest'

const through = pathToFileURL('lib/commands/door/serve-through.mjs').href

/** Answers /soon a moment after the stop began, /never not at all; says which requests have come. */
const server = (times?: object) => `
  const { serveThrough } = await import('${through}')
  let soon = () => {}
  const handle = async (request, response) => {
    console.log('asked ' + request.url)
    if (request.url === '/now') response.end('now')
    if (request.url === '/soon') soon = () => response.end('kept')
  }
  const server = serveThrough(0, handle, { isDev: false, publicUrl: null, proxies: [] }, ${JSON.stringify(times)})
  server.on('listening', () => console.log('port ' + server.address().port))
  process.on('SIGTERM', () => setImmediate(() => soon()))
  process.on('SIGHUP', () => setImmediate(() => soon()))
  process.on('disconnect', () => setImmediate(() => soon()))`

async function serve(times?: object) {
  const child = spawn(process.execPath, ['--input-type=module', '-e', server(times)], {
    stdio: ['ignore', 'pipe', 'inherit', 'ipc'],
  })
  let said = ''
  child.stdout?.on('data', (bytes) => (said += bytes))
  const hear = async (words: RegExp): Promise<string> => {
    for (;;) {
      const heard = words.exec(said)
      if (heard) return heard[1] ?? ''
      await once(child.stdout ?? child, 'data')
    }
  }
  const address = `http://127.0.0.1:${await hear(/port (\d+)\n/)}`
  return { child, address, hear, ended: once(child, 'exit') }
}

const end: readonly (readonly [string, (child: ChildProcess) => void])[] = [
  ['SIGTERM', (child) => child.kill('SIGTERM')],
  ['SIGHUP', (child) => child.kill('SIGHUP')],
  ['the end of whoever started it', (child) => child.disconnect()],
]

test.each(end)(
  'at %s what is being answered is answered, who would wait too long is told to come back',
  async (_, stop) => {
    const { child, address, hear, ended } = await serve()
    const soon = fetch(`${address}/soon`)
    const never = fetch(`${address}/never`)
    const page = fetch(`${address}/never?page`, { headers: { accept: 'text/html' } })
    await hear(/asked \/soon\n/)
    await hear(/asked \/never\n/)
    await hear(/asked \/never\?page\n/)
    stop(child)
    expect(await (await soon).text()).toBe('kept')
    const told = await never
    expect([told.status, told.headers.get('retry-after'), told.headers.get('connection')]).toEqual([503, '5', 'close'])
    expect(await told.json()).toEqual({ door: 'stopping', words: expect.stringContaining('being stopped') })
    const toldPage = await page
    expect([toldPage.status, toldPage.headers.get('content-type')]).toEqual([503, 'text/html; charset=utf-8'])
    expect(await toldPage.text()).toContain('send it again if it is not there')
    await ended
  },
)

test.each(end)(
  'at %s a server that nobody asks anything ends, though a browser keeps its connection',
  async (_, stop) => {
    const { child, address, ended } = await serve()
    expect(await (await fetch(`${address}/now`)).text()).toBe('now')
    stop(child)
    expect((await ended)[0]).toBe(0)
  },
)

test('words that nobody can hear end nothing', async () => {
  const { child, address, ended } = await serve()
  child.stdout?.destroy()
  for (let ask = 0; ask < 3; ask++) expect(await (await fetch(`${address}/now`)).text()).toBe('now')
  child.kill('SIGTERM')
  expect((await ended)[1]).toBeNull()
})

test('the port is free again once it has ended', async () => {
  const { child, address, ended } = await serve()
  child.kill('SIGTERM')
  await ended
  const probe = createServer().listen(Number(new URL(address).port), '127.0.0.1')
  await once(probe, 'listening')
  probe.close()
})

test('what is no request is answered in words', async () => {
  const { child, address, ended } = await serve()
  const line = connect(Number(new URL(address).port), '127.0.0.1')
  line.end('how much is the coffee?\r\n\r\n')
  expect(await text(line)).toMatch(/^HTTP\/1\.1 400 Bad Request\r\n[^]*\r\n\r\nThis request cannot be read\.$/)
  child.kill('SIGTERM')
  await ended
})

test('a connection that asked nothing in time is closed with the one word after which a browser asks again by itself', async () => {
  // RFC 9110, 15.5.9: after 408 "the client MAY repeat that request on a new connection"; its request may cross with our word
  const { child, address, ended } = await serve({
    headersTimeout: 40,
    requestTimeout: 50,
    connectionsCheckingInterval: 20,
  })
  const line = connect(Number(new URL(address).port), '127.0.0.1')
  expect(await text(line)).toMatch(/^HTTP\/1\.1 408 Request Timeout\r\n[^]*\r\nconnection: close\r\n/)
  child.kill('SIGTERM')
  await ended
})
