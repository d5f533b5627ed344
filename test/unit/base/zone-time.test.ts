import { expect, test } from 'vitest'
import { clockIn, dayIn, momentOf } from '@/lib/base/zone-time'

// Offsets from the IANA time zone database: Manila +08:00 all year; Berlin +01:00, from 29 March 2026 01:00 UTC +02:00.
test.each([
  ['2026-03-14T09:30', 'Asia/Manila', '2026-03-14T01:30:00.000Z'],
  ['2026-03-29T01:59', 'Europe/Berlin', '2026-03-29T00:59:00.000Z'],
  ['2026-03-29T03:00', 'Europe/Berlin', '2026-03-29T01:00:00.000Z'],
  ['2026-10-25T04:00', 'Europe/Berlin', '2026-10-25T03:00:00.000Z'],
  ['2026-07-01', 'UTC', '2026-07-01T12:00:00.000Z'],
])('%s in %s is %s', (clock, zone, moment) => {
  expect(momentOf(clock, zone)?.toISOString()).toBe(moment)
})

test('a moment goes to the clock and back', () => {
  const at = new Date('2026-11-05T22:17:00.000Z')
  expect(clockIn(at, 'America/New_York')).toBe('2026-11-05T17:17')
  expect(momentOf(clockIn(at, 'America/New_York'), 'America/New_York')).toEqual(at)
})

test.each(['', 'tomorrow', '2026-13-40', '2026-03-14 09:30'])('%j is no moment', (clock) => {
  expect(momentOf(clock, 'UTC')).toBeNull()
})

test.each([
  // Auckland is 13 hours ahead in March, New York 4 behind (tz database: daylight time in both)
  ['2026-03-14T14:00:00Z', 'Pacific/Auckland', '2026-03-15'],
  ['2026-03-15T02:00:00Z', 'America/New_York', '2026-03-14'],
  ['2026-03-14T14:00:00Z', 'UTC', '2026-03-14'],
])('at %s it is in %s the day %s', (at, zone, day) => {
  expect(dayIn(new Date(at), zone)).toBe(day)
})
