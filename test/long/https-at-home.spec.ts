/**
 * A house behind https, as README sets it up: by the proxy that README names where that is installed, its configuration taken
 * from README itself, and in any case by a stand-in that says the same.
 */
import { once } from 'node:events'
import { createServer, request as ask, type Server } from 'node:http'
import { text } from 'node:stream/consumers'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { hashInTurn } from '@/lib/auth/password'
import { openDoor } from '@/lib/commands/door/door.mjs'
import { openDatabase } from '@/lib/db/engine/client'
import { freePort, startApp, type App } from '../support/app'
import { mara } from '../support/house'
import {
  askSafely,
  configurationOfReadme,
  isCaddyHere,
  openCaddy,
  openStandIn,
  type Proxy,
} from '../support/https-proxy'

test('README gives one configuration, for the address and the port that it speaks of', () => {
  expect(configurationOfReadme()).toContain('https://192.168.1.20 {')
  expect(configurationOfReadme()).toContain('127.0.0.1:3000')
})

const open = { 'the proxy of README': openCaddy, 'a stand-in': openStandIn }

describe.each(Object.entries(open))('behind %s', (name, openProxy) => {
  const isMissing = name === 'the proxy of README' && !isCaddyHere()
  let app: App
  let proxy: Proxy
  let mirror: Server
  let before: Proxy

  beforeAll(async () => {
    if (isMissing) return
    const port = await freePort()
    app = await startApp({ env: { PUBLIC_URL: `https://127.0.0.1:${port}`, PROXY: '127.0.0.1' } })
    proxy = await openProxy(port, app.port)
    const db = openDatabase(app.databaseUrl)
    const createdAt = new Date()
    const hashed = await hashInTurn(mara.password)
    const passwordHash = hashed.ok ? hashed.value : ''
    await db.cafe.create({ data: { id: 'kiosk', name: 'Ferry Steps', createdAt } })
    await db.user.create({ data: { id: 'mara', email: mara.email, name: mara.name, passwordHash, createdAt } })
    await db.membership.create({ data: { id: 'm', cafeId: 'kiosk', userId: 'mara', role: 'owner', createdAt } })
    await db.$disconnect()

    // another house, which only says what reached it through its door
    const house = { isDev: false, publicUrl: 'https://127.0.0.1', proxies: ['127.0.0.1'] }
    const door = openDoor(async (request, response) => void response.end(JSON.stringify(request.headers)), house)
    mirror = createServer((request, response) => void door(request, response)).listen(0, '127.0.0.1')
    await once(mirror, 'listening')
    const address = mirror.address()
    if (typeof address !== 'object' || address === null) throw new Error('no port')
    before = await openProxy(await freePort(), address.port)
  })
  afterAll(async () => {
    if (isMissing) return
    await before.close()
    await proxy.close()
    mirror.closeAllConnections()
    mirror.close()
    await app.throwAway()
  })

  const cookiesOf = (heard: { headers: { 'set-cookie'?: string[] | undefined } }) => heard.headers['set-cookie'] ?? []
  const pairs = (lines: readonly string[]) => lines.map((line) => line.split(';')[0]).join('; ')

  test.skipIf(isMissing)('a page comes by https, and tells the browser to stay with it', async () => {
    const page = await askSafely(proxy.port, proxy.ca, '/sign-in')
    expect([page.status, page.headers['strict-transport-security']]).toEqual([200, 'max-age=31536000'])
    expect(page.body).toContain('Sign in')
    await expect(askSafely(proxy.port, '', '/sign-in')).rejects.toThrow(/certificate/)
  })

  test.skipIf(isMissing)('somebody signs in, and every cookie of it is for https alone', async () => {
    const asked = await askSafely(proxy.port, proxy.ca, '/api/auth/csrf')
    const { csrfToken } = JSON.parse(asked.body) as { csrfToken: string }
    const form = new URLSearchParams({ csrfToken, email: mara.email, password: mara.password, json: 'true' })
    const signed = await askSafely(proxy.port, proxy.ca, '/api/auth/callback/credentials', {
      method: 'POST',
      headers: { cookie: pairs(cookiesOf(asked)), 'content-type': 'application/x-www-form-urlencoded' },
      send: form.toString(),
    })
    const cookies = [...cookiesOf(asked), ...cookiesOf(signed)]
    expect(cookies.filter((line) => !/; Secure/.test(line))).toEqual([])
    expect(cookies.some((line) => line.startsWith('__Host-'))).toBe(true)
    expect(cookiesOf(signed).some((line) => line.startsWith('__Secure-next-auth.session-token='))).toBe(true)
    const home = await askSafely(proxy.port, proxy.ca, '/account', { headers: { cookie: pairs(cookies) } })
    expect([home.status, home.body.includes(mara.email)]).toEqual([200, true])
  })

  test.skipIf(isMissing)('who asks is the phone and not the proxy, whatever the phone says of itself', async () => {
    for (const localAddress of ['127.0.0.2', '127.0.0.3']) {
      const headers = {
        'x-forwarded-for': '6.6.6.6',
        'x-forwarded-proto': 'http',
        'x-forwarded-host': 'elsewhere.example',
      }
      const heard = await askSafely(before.port, before.ca, '/', { localAddress, headers })
      expect(JSON.parse(heard.body)).toMatchObject({
        'x-forwarded-for': localAddress,
        'x-forwarded-proto': 'https',
        'x-forwarded-host': `127.0.0.1:${before.port}`,
      })
    }
  })

  test.skipIf(isMissing)('who comes by http is told where the house is', async () => {
    const headers = { host: `192.168.1.20:${app.port}`, accept: 'text/html' }
    const asking = ask({ host: '127.0.0.1', port: app.port, path: '/sign-in', headers, agent: false }).end()
    const [told] = await once(asking, 'response')
    const words = await text(told)
    expect([told.statusCode, words]).toEqual([403, expect.stringContaining(`https://127.0.0.1:${proxy.port}`)])
  })
})
