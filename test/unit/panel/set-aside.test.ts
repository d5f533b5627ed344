import { expect, test } from 'vitest'
import { findSetAside, momentAside } from '@/lib/panel/set-aside'

const at = (minute: number) => new Date(Date.parse('2026-03-14T18:00:00Z') + minute * 60_000)

test('a seat is set aside blind while the panel is open, and up to the moment it closes', () => {
  expect(findSetAside(null, null)).toBeNull()
  expect(findSetAside(null, at(9))).toBeNull()
  expect(findSetAside(at(5), null)).toBe('before-closing')
  expect(findSetAside(at(5), at(9))).toBe('before-closing')
  expect(findSetAside(at(9), at(9))).toBe('before-closing')
  expect(findSetAside(at(10), at(9))).toBe('after-closing')
})

test('a clock that was set back makes no act after closing look like one before it', () => {
  expect(momentAside(at(5), null)).toEqual(at(5))
  expect(momentAside(at(10), at(9))).toEqual(at(10))
  for (const now of [at(3), at(9)]) expect(findSetAside(momentAside(now, at(9)), at(9))).toBe('after-closing')
})
