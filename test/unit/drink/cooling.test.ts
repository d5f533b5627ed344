import { expect, test } from 'vitest'
import { coolingOf, COOLING } from '@/lib/drink/cooling'

// Food Code 3-501.14(A), in the trade's facts: 57 → 21 °C within 2 h, and to 5 °C or less within 6 h in all.
const clock = (time: string) => new Date(`2026-03-14T${time}:00Z`)
const read = (...readings: readonly (readonly [time: string, celsius: number])[]) =>
  readings.map(([time, celsius]) => ({ at: clock(time), celsius }))
const at = (now: string, ...readings: readonly (readonly [time: string, celsius: number])[]) =>
  coolingOf(read(...readings), clock(now))

test('the limits are the food code’s', () => {
  expect(COOLING).toMatchObject({
    from: 57,
    steps: [
      { celsius: 21, hours: 2 },
      { celsius: 5, hours: 6 },
    ],
  })
})

test('in time only where the readings show it, the limits themselves included', () => {
  expect(at('18:05', ['12:05', 57], ['14:05', 21], ['18:05', 5])).toEqual({ state: 'in-time' })
  expect(at('23:00', ['11:00', 92], ['12:05', 57], ['13:00', 20.9], ['17:00', 4])).toEqual({ state: 'in-time' })
  // straight into ice: colder than both at once
  expect(at('12:50', ['12:05', 90], ['12:45', 4.5])).toEqual({ state: 'in-time' })
})

test('while the time runs, what must be read by when', () => {
  expect(at('12:10', ['12:05', 57])).toEqual({ state: 'running', celsius: 21, by: clock('14:05') })
  expect(at('14:05', ['12:05', 57], ['13:30', 30])).toEqual({ state: 'running', celsius: 21, by: clock('14:05') })
  expect(at('15:00', ['12:05', 57], ['14:00', 21])).toEqual({ state: 'running', celsius: 5, by: clock('18:05') })
  // still hot at 12:30: it has until two hours after that
  expect(at('12:31', ['12:05', 90], ['12:30', 60])).toEqual({ state: 'running', celsius: 21, by: clock('14:30') })
})

test('a tenth of a degree too warm at the limit is too late', () => {
  expect(at('14:05', ['12:05', 57], ['14:05', 21.1])).toEqual({ state: 'too-late', celsius: 21, by: clock('14:05') })
  expect(at('18:05', ['12:05', 57], ['14:05', 21], ['18:05', 5.1])).toEqual({
    state: 'too-late',
    celsius: 5,
    by: clock('18:05'),
  })
  // cold later changes nothing
  expect(at('23:00', ['12:05', 57], ['14:06', 22], ['14:30', 3])).toMatchObject({ state: 'too-late', celsius: 21 })
})

test('what nobody read in time is not in time, however cold it is now', () => {
  expect(at('14:06', ['12:05', 57])).toEqual({ state: 'not-shown', celsius: 21, by: clock('14:05') })
  expect(at('15:00', ['12:05', 57], ['14:06', 3])).toMatchObject({ state: 'not-shown', celsius: 21 })
  expect(at('18:06', ['12:05', 57], ['14:00', 20])).toEqual({ state: 'not-shown', celsius: 5, by: clock('18:05') })
  expect(at('12:00')).toEqual({ state: 'no-reading' })
})

test('without a reading at 57 °C nobody knows when it began; too late for sure is said all the same', () => {
  expect(at('13:00', ['12:05', 56.9], ['12:30', 4])).toEqual({ state: 'start-unknown' })
  expect(at('14:05', ['12:05', 40], ['14:05', 30])).toMatchObject({ state: 'too-late', celsius: 21 })
  expect(at('18:10', ['12:05', 18], ['18:10', 8])).toMatchObject({ state: 'too-late', celsius: 5 })
})

test('warmed up again, it is neither in time nor begins anew', () => {
  expect(at('20:00', ['12:05', 57], ['14:00', 20], ['17:00', 4], ['19:00', 5.1])).toEqual({ state: 'warm-again' })
  expect(at('20:00', ['12:05', 57], ['14:30', 30], ['15:00', 80], ['16:00', 4])).toMatchObject({ state: 'too-late' })
})

test('readings count in the order of their time, in whatever order they were written down', () => {
  const readings = read(['18:00', 5], ['12:05', 57], ['14:00', 21])
  expect(coolingOf(readings, clock('19:00'))).toEqual({ state: 'in-time' })
})
