import { afterEach, beforeEach, expect, test, vi } from 'vitest'

beforeEach(() => void vi.resetModules())
afterEach(() => void vi.unstubAllEnvs())

async function given() {
  const { seatCookie, shownCookie, ticketCookie } = await import('@/app/taste/cookies')
  return {
    lines: [seatCookie('x'.repeat(43)), ticketCookie('x'.repeat(43))],
    shown: shownCookie(undefined, 'x'.repeat(21)),
  }
}

test('a house by plain http gives cookies that a phone keeps there', async () => {
  vi.stubEnv('PUBLIC_URL', 'http://192.168.1.20:3000')
  const { lines, shown } = await given()
  expect(lines.filter((line) => line.includes('Secure'))).toEqual([])
  expect(shown).toMatchObject({ secure: false, httpOnly: true })
})

test('a house with https gives none that would travel without it', async () => {
  vi.stubEnv('PUBLIC_URL', 'https://192.168.1.20')
  const { lines, shown } = await given()
  expect(lines.filter((line) => line.endsWith('; Secure'))).toHaveLength(2)
  expect(shown).toMatchObject({ secure: true, httpOnly: true })
})
