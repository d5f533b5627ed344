import { expect, test } from 'vitest'
import { sayCalendarDay, sayDay, sayMoment, sayTime } from '@/app/ui/moment'

test('a moment is said in the café’s own zone, summer time included', () => {
  // tz database: Berlin is two hours ahead of UTC in June, New York four behind
  const at = new Date('2026-06-05T22:05:00Z')
  expect(sayMoment(at, 'Europe/Berlin')).toBe('6 Jun 2026, 00:05')
  expect(sayDay(at, 'Europe/Berlin')).toBe('6 Jun 2026')
  expect(sayTime(at, 'America/New_York')).toBe('18:05')
})

test('a day of the calendar is that day', () => {
  expect(sayCalendarDay('2026-11-01')).toBe('1 Nov 2026')
})
