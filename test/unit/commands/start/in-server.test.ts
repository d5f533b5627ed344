/** What is loaded beside the server, beside a small server of its own. */
import { spawn, type ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import { createServer } from 'node:net'
import { pathToFileURL } from 'node:url'
import { expect, test } from 'vitest'

const beside = pathToFileURL('lib/commands/start/in-server.mjs').href

/** Answers /soon a moment after the stop began, /never not at all; says which requests have come. */
const SERVER = `
  import { createServer } from 'node:http'
  let soon = () => {}
  const server = createServer((request, response) => {
    console.log('asked ' + request.url)
    if (request.url === '/now') response.end('now')
    if (request.url === '/soon') soon = () => response.end('kept')
  }).listen(0, '127.0.0.1', () => console.log('port ' + server.address().port))
  process.on('SIGTERM', () => setImmediate(() => soon()))
  if (process.env.ENDS_ITSELF) process.on('SIGTERM', () => server.close(() => process.exit(143)))`

async function serve(variables: Record<string, string> = {}) {
  const child = spawn(process.execPath, ['--import', beside, '--input-type=module', '-e', SERVER], {
    env: { ...process.env, ...variables },
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
    expect(await told.json()).toEqual({ reason: 'stopping', words: expect.stringContaining('being stopped') })
    const toldPage = await page
    expect([toldPage.status, toldPage.headers.get('content-type')]).toEqual([503, 'text/html; charset=utf-8'])
    expect(await toldPage.text()).toContain('send it again if it is not there')
    await ended
  },
)

test.each(end)(
  'at %s a server that nobody asks anything ends, though a browser keeps its connection',
  async (_, stop) => {
    for (const endsItself of [false, true]) {
      const { child, address, ended } = await serve(endsItself ? { ENDS_ITSELF: '1' } : {})
      expect(await (await fetch(`${address}/now`)).text()).toBe('now')
      stop(child)
      expect((await ended)[0]).toBe(endsItself ? 143 : 0)
    }
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
