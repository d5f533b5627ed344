import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { startApp, type App } from '../support/app'
import { ask } from '../support/ask'

let folder: string
let app: App

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'sipwright-opens-'))
  app = await startApp({ databaseUrl: `file:${folder}/kiosk.db` })
})

afterAll(async () => {
  await app.stop()
  rmSync(folder, { recursive: true, force: true })
})

test('the first start prints one line, with the address and the link to set up', () => {
  expect(app.printed().trim().split('\n')).toHaveLength(1)
  expect(app.setUpLink).toMatch(new RegExp(`^${app.address}/setup/[\\w-]{43}$`))
})

test('the set-up link opens, another one does not, and the headers let nothing in or out', async () => {
  const right = await ask(app.setUpLink ?? '')
  expect(right.status).toBe(200)
  expect(right.headers.get('content-security-policy')).toContain("frame-ancestors 'none'")
  expect(right.headers.get('referrer-policy')).toBe('same-origin')
  expect(right.headers.get('x-content-type-options')).toBe('nosniff')
  expect(right.headers.get('x-powered-by')).toBeNull()
  const phone = await ask(`${app.address}/taste`)
  expect(phone.headers.get('content-security-policy')).not.toContain('unsafe-inline')
  const wrong = await ask(`${app.address}/setup/${'x'.repeat(43)}`)
  expect(await wrong.text()).not.toContain('name="password"')
})

test('the app listens on every address of the machine, of both kinds', async () => {
  expect((await ask(`http://127.0.0.1:${app.port}/`, { redirect: 'manual' })).status).toBeLessThan(500)
  expect((await ask(`http://[::1]:${app.port}/`, { redirect: 'manual' })).status).toBeLessThan(500)
})

test('a browser that asks for an icon before it has read the page is given one', async () => {
  const icon = await ask(`${app.address}/favicon.ico`)
  expect([icon.status, icon.headers.get('content-type')]).toEqual([200, 'image/x-icon'])
})

test('a second start for the same café says where it is served and leaves it alone', () => {
  const env = {
    ...process.env,
    NODE_ENV: 'production' as const,
    DATABASE_URL: app.databaseUrl,
    PORT: '3918',
    PUBLIC_URL: '',
  }
  const second = spawnSync(process.execPath, ['lib/commands/start.mjs'], { env, encoding: 'utf8' })
  expect(second).toMatchObject({ status: 1, stdout: '' })
  expect(second.stderr).toContain(`is served already at ${app.address}`)
})

test('stopped and started again it serves, with a fresh link as long as nobody has set it up', async () => {
  const former = app.setUpLink ?? ''
  await app.stop()
  await expect(ask(app.address)).rejects.toThrow()
  app = await startApp({ databaseUrl: app.databaseUrl })
  const token = former.split('/').at(-1) ?? ''
  expect(await (await ask(`${app.address}/setup/${token}`)).text()).not.toContain('name="password"')
  expect(await (await ask(app.setUpLink ?? '')).text()).toContain('name="password"')
})

test('started where its words are kept, the house prints no link, and says what prints one', async () => {
  const quiet = await startApp({ env: { SETUP_LINK: '' } })
  try {
    expect(quiet.printed()).toMatch(
      /^Sipwright is ready at http\S+\. It is not set up yet: run npm run setup-link .*\n$/,
    )
    expect(quiet.setUpLink).toBeNull()
    expect(statSync('.data/logs').mode & 0o777).toBe(0o700)
  } finally {
    await quiet.throwAway()
  }
})
