import { expect, test } from 'vitest'
import { clockIn, dayAndTimeIn, dayIn, momentOf } from '@/lib/base/zone-time'

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

test.each([
  // GNU date 9 with the system's IANA time zone database: TZ=ZONE LC_ALL=C date -d MOMENT '+%-d %b %Y|%H:%M'
  ['2026-03-29T00:59:00Z', 'Europe/Berlin', '29 Mar 2026', '01:59'],
  ['2026-03-29T01:00:00Z', 'Europe/Berlin', '29 Mar 2026', '03:00'],
  ['2026-10-25T00:30:00Z', 'Europe/Berlin', '25 Oct 2026', '02:30'],
  ['2026-10-25T01:30:00Z', 'Europe/Berlin', '25 Oct 2026', '02:30'],
  ['2026-04-01T00:00:00Z', 'Europe/London', '1 Apr 2026', '01:00'],
  ['2026-11-01T05:59:00Z', 'America/New_York', '1 Nov 2026', '01:59'],
  ['2026-11-01T06:00:00Z', 'America/New_York', '1 Nov 2026', '01:00'],
  ['2026-07-01T06:59:00Z', 'America/Los_Angeles', '30 Jun 2026', '23:59'],
  ['2027-01-01T02:29:00Z', 'America/St_Johns', '31 Dec 2026', '22:59'],
  ['2026-10-03T15:29:00Z', 'Australia/Lord_Howe', '4 Oct 2026', '01:59'],
  ['2026-10-03T15:30:00Z', 'Australia/Lord_Howe', '4 Oct 2026', '02:30'],
  ['2028-02-29T11:00:00Z', 'Pacific/Auckland', '1 Mar 2028', '00:00'],
  ['2026-09-26T14:00:00Z', 'Pacific/Auckland', '27 Sep 2026', '03:00'],
  ['2026-12-31T10:00:00Z', 'Pacific/Kiritimati', '1 Jan 2027', '00:00'],
  ['2026-09-04T18:15:00Z', 'Asia/Kathmandu', '5 Sep 2026', '00:00'],
  ['2026-06-30T16:00:00Z', 'Asia/Manila', '1 Jul 2026', '00:00'],
  ['2026-08-15T12:00:00Z', 'Africa/Nairobi', '15 Aug 2026', '15:00'],
  ['2026-05-31T23:30:00Z', 'UTC', '31 May 2026', '23:30'],
])('at %s people in %s read %s, %s', (at, zone, day, time) => {
  expect(dayAndTimeIn(new Date(at), zone)).toEqual({ day, time })
})

test('every month has its three letters', () => {
  const days = Array.from({ length: 12 }, (_, month) => dayAndTimeIn(new Date(Date.UTC(2026, month, 10)), 'UTC').day)
  // GNU date, as above
  expect(days.map((day) => day.slice(3, 6)).join(' ')).toBe('Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec')
})

test('a moment that is none is refused, and so is a zone that is none', () => {
  expect(() => dayAndTimeIn(new Date(NaN), 'UTC')).toThrow(RangeError)
  expect(() => dayAndTimeIn(new Date(0), 'Mars/Olympus')).toThrow(RangeError)
})
