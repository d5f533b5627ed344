/** The door over real connections, before a small house that says what reaches it. */
import { once } from 'node:events'
import { createServer, request as ask, type IncomingHttpHeaders, type RequestOptions, type Server } from 'node:http'
import { connect } from 'node:net'
import { text } from 'node:stream/consumers'
import { afterEach, expect, test } from 'vitest'
import { readReply } from '@/app/taste/phone/post'
import { openDoor, type Handle } from '@/lib/commands/door/door.mjs'
import type { House } from '@/lib/commands/door/headers.mjs'
import { QUEUE_LIMITS } from '@/lib/commands/door/queue.mjs'

const house: House = { isDev: false, publicUrl: null, proxies: [] }
let server: Server | undefined

afterEach(() => {
  server?.closeAllConnections()
  server?.close()
})

/** Tells what came in, as whoever stands behind the door would see it. */
const mirror: Handle = async (request, response) => {
  expect(request.readableDidRead).toBe(false) // who makes a web request of it refuses what was read before
  const body = await text(request)
  response.end(JSON.stringify({ url: request.url, headers: request.headers, body }))
}

async function openHouse(wanted: Partial<House> = {}, handle = mirror, limits = QUEUE_LIMITS, note = () => {}) {
  const door = openDoor(handle, { ...house, ...wanted }, { limits, note })
  server = createServer((request, response) => void door(request, response)).listen(0, '127.0.0.1')
  await once(server, 'listening')
  const address = server.address()
  if (typeof address !== 'object' || address === null) throw new Error('no port')
  return address.port
}

type Heard = { status: number; headers: IncomingHttpHeaders; body: string }

async function send(port: number, options: RequestOptions, ...body: readonly (string | Buffer)[]): Promise<Heard> {
  const sending = ask({ host: '127.0.0.1', port, method: body.length ? 'POST' : 'GET', ...options })
  sending.on('error', () => undefined) // the line may be cut while we still send
  for (const chunk of body) sending.write(chunk)
  sending.end()
  const [response] = await once(sending, 'response')
  return { status: response.statusCode, headers: response.headers, body: await text(response) }
}

test('a body reaches the house as it was sent: whole, in pieces, with a length and without', async () => {
  const port = await openHouse()
  const bodies = ['{}', 'é'.repeat(30_000), Buffer.alloc(64 * 1024, 'x').toString()]
  for (const body of bodies) {
    const length = { 'content-length': Buffer.byteLength(body) }
    expect(JSON.parse((await send(port, { headers: length }, body)).body).body).toBe(body)
    const half = Math.floor(body.length / 2)
    expect(JSON.parse((await send(port, {}, body.slice(0, half), body.slice(half))).body).body).toBe(body)
  }
  expect(JSON.parse((await send(port, { method: 'POST' })).body).body).toBe('')
})

test('too much is refused by its length, and at the byte that is too many; the house hears nothing of it', async () => {
  let asked = 0
  const port = await openHouse({}, async (_, response) => void (asked++, response.end()))
  const announced = await send(port, { headers: { 'content-length': 64 * 1024 + 1 } }, 'x')
  const counted = await send(port, {}, Buffer.alloc(64 * 1024), 'x')
  for (const { status, body, headers } of [announced, counted]) {
    expect([status, JSON.parse(body).door, headers.connection]).toEqual([413, 'too-large', 'close'])
  }
  expect(asked).toBe(0)
  const file = Buffer.alloc(1024 * 1024)
  expect((await send(port, { path: '/recipes/one/import' }, file)).status).toBe(200)
  expect((await send(port, { path: '/recipes/one/import' }, file, 'x')).status).toBe(413)
})

test('every answer carries the headers, its own words stay, and no two answers share a nonce', async () => {
  const port = await openHouse({}, async (request, response) => {
    if (request.url === '/taste') response.setHeader('referrer-policy', 'no-referrer')
    response.writeHead(200, { 'x-frame-options': 'SAMEORIGIN' })
    response.end(request.headers['content-security-policy'])
  })
  const [page, again, phone, none] = [
    await send(port, { path: '/a' }),
    await send(port, { path: '/a' }),
    await send(port, { path: '/taste' }),
    await send(port, { path: '/%' }),
  ]
  expect(page.headers['content-security-policy']).toMatch(
    /script-src 'self' 'nonce-[b-df-hj-np-tv]{32}'; style-src 'self'; style-src-attr 'none';/,
  )
  expect(page.body).toBe(page.headers['content-security-policy'])
  expect(again.body).not.toBe(page.body)
  expect(phone.headers['referrer-policy']).toBe('no-referrer')
  expect(phone.headers['x-frame-options']).toBe('SAMEORIGIN')
  expect(none.headers).toMatchObject({ 'x-content-type-options': 'nosniff', 'x-frame-options': 'DENY' })
  expect(page.headers['strict-transport-security']).toBeUndefined()
})

test('what nobody could mean is answered in words', async () => {
  const port = await openHouse()
  for (const path of ['/join/%', '/join/%ff', '/trials/%ff/file']) {
    const { status, body } = await send(port, { path, headers: { accept: 'text/html' } })
    expect([status, /<h1>No such address<\/h1>/.test(body)], path).toEqual([400, true])
  }
  expect((await send(port, { headers: { host: 'a"b' } })).status).toBe(400)
  const traced = await send(port, { method: 'TRACE' })
  expect([traced.status, traced.headers.allow]).toEqual([405, 'GET, HEAD, POST, OPTIONS'])
})

test('who asks is whoever the line belongs to, unless a proxy of ours says so', async () => {
  const said = {
    'x-forwarded-for': '6.6.6.6, 10.0.0.9',
    'x-forwarded-host': 'evil.example',
    'x-forwarded-proto': 'https',
    'x-real-ip': '6.6.6.6',
    forwarded: 'for=6.6.6.6',
  }
  const seen = async (port: number) => {
    const { headers } = JSON.parse((await send(port, { headers: said })).body)
    return Object.fromEntries(Object.entries(headers).filter(([name]) => name in said))
  }
  expect(await seen(await openHouse())).toEqual({ 'x-forwarded-for': '127.0.0.1' })
  server?.close()
  expect(await seen(await openHouse({ proxies: ['127.0.0.1', '10.0.0.9'] }))).toEqual({
    'x-forwarded-for': '6.6.6.6',
    'x-forwarded-host': 'evil.example',
    'x-forwarded-proto': 'https',
  })
})

test('a house with https tells who comes by http where it is, and lets this computer and its proxy in', async () => {
  const port = await openHouse({ publicUrl: 'https://kiosk.test', proxies: ['127.0.0.1'] })
  const http = await send(port, { headers: { host: 'cafe.lan:3000', accept: 'text/html' } })
  expect([http.status, http.body.includes('Come by https://kiosk.test instead')]).toEqual([403, true])
  expect(http.headers['strict-transport-security']).toBe('max-age=31536000')
  for (const headers of [
    { host: 'kiosk.test' },
    { host: 'localhost:3000' },
    { host: '10.0.0.3', 'x-forwarded-proto': 'https' },
  ]) {
    expect((await send(port, { headers })).status).toBe(200)
  }
})

test('beyond its time a request is told to come back; what failed without an answer gets one', async () => {
  const limits = { atOnce: 1, waitMs: 1, lendMs: 60_000, longest: 10 }
  const heard: unknown[] = []
  let free = () => {}
  const until = new Promise<void>((resolve) => (free = resolve))
  const handle: Handle = async (request, response) => {
    if (request.url === '/slow') await until
    if (request.url === '/fails') throw new Error('no disk')
    response.end()
  }
  const door = openDoor(handle, house, { limits, note: (error) => void heard.push(error) })
  server = createServer((request, response) => void door(request, response)).listen(0, '127.0.0.1')
  await once(server, 'listening')
  const address = server.address()
  const port = typeof address === 'object' && address ? address.port : 0
  const slow = send(port, { path: '/slow' })
  await once(server, 'request')
  const late = await send(port, {})
  expect([late.status, late.headers['retry-after'], JSON.parse(late.body).door]).toEqual([503, '2', 'busy'])
  expect((await send(port, { path: '/_next/static/a.js' })).status).toBe(200)
  free()
  expect((await slow).status).toBe(200)
  const failed = await send(port, { path: '/fails' })
  expect([failed.status, JSON.parse(failed.body).door]).toEqual([500, 'fault'])
  expect(heard).toEqual([new Error('no disk')])
})

test('what breaks off while it comes reaches nobody', async () => {
  let asked = 0
  const port = await openHouse({}, async (_, response) => void (asked++, response.end()))
  const line = connect(port, '127.0.0.1')
  line.write('POST / HTTP/1.1\r\nhost: kiosk\r\ncontent-length: 10\r\n\r\nhalf')
  await once(server ?? line, 'request')
  line.destroy()
  await once(line, 'close')
  expect((await send(port, {})).status).toBe(200)
  expect(asked).toBe(1)
})

test('an act that asks this server for its next page needs no second turn, and nobody else can say so', async () => {
  const limits = { ...QUEUE_LIMITS, atOnce: 1, waitMs: 60_000 }
  const handle: Handle = async (request, response) => {
    if (request.url !== '/act') return void response.end(request.headers['x-forwarded-for'])
    const { port } = request.socket.address() as { port: number }
    const inner = await send(port, { path: '/next', headers: { ...request.headers, 'x-forwarded-for': '10.0.0.7' } })
    response.end(inner.body)
  }
  const port = await openHouse({}, handle, limits)
  expect((await send(port, { path: '/act' })).body).toBe('10.0.0.7')
  const stranger = { 'x-house-ticket': 'let me in', 'x-forwarded-for': '10.0.0.7' }
  expect((await send(port, { path: '/next', headers: stranger })).body).toBe('127.0.0.1')
})

test('a taster’s phone keeps an answer that came no further than the door', async () => {
  const parcel = {
    id: 1,
    sitting: 's',
    message: { sitting: 's', code: '417', attribute: 0, value: 7, revision: 1, key: 'k' },
  }
  const port = await openHouse({ publicUrl: 'https://kiosk.test' })
  const heard = [
    await send(port, { path: '/taste/scores', headers: { host: 'cafe.lan:3000' } }, '{}'),
    await send(port, { path: '/taste/scores', headers: { host: 'kiosk.test' } }, Buffer.alloc(64 * 1024 + 1)),
    await send(port, { path: '/taste/%ff', headers: { host: 'kiosk.test' } }, '{}'),
  ]
  expect(heard.map(({ status }) => status)).toEqual([403, 413, 400])
  for (const { status, body } of heard) {
    const { words } = JSON.parse(body) as { words: string }
    const told = readReply(parcel, { status, reply: JSON.parse(body), comeBackMs: 0 })
    expect(told).toEqual({ kind: 'troubled', words, comeBackMs: 0 })
  }
})
