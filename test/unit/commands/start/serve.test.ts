import { expect, test } from 'vitest'
import { firstWords, serverVariables } from '@/lib/commands/start/serve.mjs'

const environment = Object.freeze({
  port: 3000,
  databaseUrl: 'file:/kiosk/a.db',
  databaseFile: '/kiosk/a.db',
  publicUrl: null,
  authSecret: null,
  proxies: [],
  backups: null,
})

test('sign-in is pinned to an address only when PUBLIC_URL says so', () => {
  expect(serverVariables(environment, '/kiosk/a.db', 's', '.next-build-x')).not.toHaveProperty('NEXTAUTH_URL')
  const publicUrl = 'http://192.168.1.20:3000'
  expect(serverVariables({ ...environment, publicUrl }, '/kiosk/a.db', 's', null)).toMatchObject({
    NEXTAUTH_URL: publicUrl,
  })
})

test('the server gets its secret under the name that next-auth reads, and trusts the host it is called by', () => {
  expect(serverVariables(environment, '/kiosk/a.db', 's', '.next-build-x')).toEqual({
    NODE_ENV: 'production',
    NEXT_TELEMETRY_DISABLED: '1',
    PORT: '3000',
    DATABASE_URL: 'file:/kiosk/a.db',
    AUTH_SECRET: 's',
    NEXTAUTH_SECRET: 's',
    AUTH_TRUST_HOST: '1',
    NEXT_DIST_DIR: '.next-build-x',
  })
})

test('the set-up link is said once, on the line with the address', () => {
  expect(firstWords('http://localhost:3000', { isDone: false, token: 'TOKEN' }, null)).toBe(
    'Sipwright is ready at http://localhost:3000. Set it up once, here: http://localhost:3000/setup/TOKEN',
  )
  const setUp = { isDone: true, token: null }
  expect(firstWords('http://localhost:3000', setUp, null)).toBe('Sipwright is ready at http://localhost:3000')
})

test('a house that nobody set up, and whose link may not be printed, says how to come by it', () => {
  const words = firstWords('http://localhost:3000', { isDone: false, token: null }, null)
  expect(words).toMatch(/^Sipwright is ready at http:\/\/localhost:3000\. .*npm run setup-link/)
})
