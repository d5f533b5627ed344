import { describe, expect, test } from 'vitest'
import { databaseFile, readEnvironment } from '@/lib/base/read-environment.mjs'

const read = (variables: Record<string, string>) => readEnvironment(Object.freeze(variables), '/kiosk')

test('nothing set gives port 3000 and a database in the data folder', () => {
  expect(read({})).toEqual({
    ok: true,
    value: {
      port: 3000,
      databaseUrl: 'file:/kiosk/.data/sipwright.db',
      databaseFile: '/kiosk/.data/sipwright.db',
      publicUrl: null,
      authSecret: null,
      proxies: [],
      backups: null,
    },
  })
})

test('a folder of backups counts from the program, and fourteen are kept if nothing else is said', () => {
  expect(read({ BACKUPS: 'kept' })).toMatchObject({ value: { backups: { folder: '/kiosk/kept', kept: 14 } } })
  expect(read({ BACKUPS: '/usb', BACKUPS_KEPT: '3' })).toMatchObject({
    value: { backups: { folder: '/usb', kept: 3 } },
  })
})

test('an empty variable counts as not set', () => {
  expect(read({ PORT: '', DATABASE_URL: '', PUBLIC_URL: '', AUTH_SECRET: '' })).toEqual(read({}))
})

describe('a wrong value is refused in one line that names the variable', () => {
  test.each([
    ['PORT', '0'],
    ['PORT', '65536'],
    ['PORT', '3000 '],
    ['PORT', '3e3'],
    ['DATABASE_URL', 'postgres://owner:hunter2@db/kiosk'],
    ['DATABASE_URL', 'file:'],
    ['DATABASE_URL', 'file:a.db?mode=ro'],
    ['DATABASE_URL', 'file::memory:'],
    ['PUBLIC_URL', '192.168.1.20:3000'],
    ['PUBLIC_URL', 'ftp://kiosk'],
    ['PUBLIC_URL', 'http://kiosk/app'],
    ['AUTH_SECRET', 'short'],
    ['PROXY', 'proxy.lan'],
    ['BACKUPS_KEPT', '0'],
    ['BACKUPS_KEPT', 'all'],
  ])('%s=%s', (name, value) => {
    const outcome = read({ [name]: value })
    expect(outcome).toMatchObject({ ok: false, problem: expect.stringMatching(new RegExp(`^${name} [^\\n]+$`)) })
  })

  test('a password in an address is not repeated, nor is a secret', () => {
    expect(JSON.stringify(read({ DATABASE_URL: 'postgres://owner:hunter2@db/kiosk' }))).not.toContain('hunter2')
    expect(JSON.stringify(read({ AUTH_SECRET: 'hunter2' }))).not.toContain('hunter2')
  })
})

test('a public address loses its slash at the end', () => {
  expect(read({ PUBLIC_URL: 'http://192.168.1.20:3000/' })).toMatchObject({
    value: { publicUrl: 'http://192.168.1.20:3000' },
  })
})

test('a database address may be relative, absolute or in the long form', () => {
  expect(databaseFile('file:a.db', '/kiosk')).toBe('/kiosk/a.db')
  expect(databaseFile('file:./deep/a.db', '/kiosk')).toBe('/kiosk/deep/a.db')
  expect(databaseFile('file:/srv/a.db', '/kiosk')).toBe('/srv/a.db')
  expect(databaseFile('file:///srv/a.db', '/kiosk')).toBe('/srv/a.db')
  expect(databaseFile('file://host/a.db', '/kiosk')).toBeNull()
})

test('a proxy is believed where one is named, and on this computer where https must end somewhere', () => {
  expect(read({ PROXY: '10.0.0.9, ::1' })).toMatchObject({ value: { proxies: ['10.0.0.9', '::1'] } })
  expect(read({ PUBLIC_URL: 'https://kiosk.test' })).toMatchObject({ value: { proxies: ['127.0.0.1', '::1'] } })
  expect(read({ PUBLIC_URL: 'http://kiosk.test' })).toMatchObject({ value: { proxies: [] } })
})
