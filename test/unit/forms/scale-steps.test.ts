import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { AS_ON_SHEET } from '@/lib/drink/for-today'
import { addedAt, BAND, columnLevel, doingsOf, offBy, stepsFor, wantedAt, type Way } from '@/lib/forms/scale-steps'
import { aBrew, aLine, aTrial, grounds } from '../../support/drink-lines'

const steps = [{ add: 30 }, { add: 120 }, { add: 60 }]
const none = [null, null, null]

test('tared at each step the scale should read what is added; running on, all that is in', () => {
  const wanted = (way: Way) => steps.map((_, place) => wantedAt(steps, place, way, none))
  expect(wanted('tare')).toEqual([30, 120, 60])
  expect(wanted('run')).toEqual([30, 150, 210])
})

test('running on, a step that went wrong does not make the next one wrong', () => {
  // 33 g instead of 30: 120 more make 153, by hand
  expect(wantedAt(steps, 1, 'run', [33, null, null])).toBe(153)
  expect(addedAt(steps, 1, 'run', [33, 152.5, null])).toBe(119.5)
  // nothing was read off before: what should have stood there counts
  expect(addedAt(steps, 1, 'run', [null, 152.5, null])).toBe(122.5)
  expect(addedAt(steps, 1, 'tare', [33, 119.5, null])).toBe(119.5)
  expect(addedAt(steps, 2, 'run', none)).toBeNull()
})

test('either way the same things are added', () => {
  const gram = fc.integer({ min: 0, max: 5000 }).map((tenths) => tenths / 10)
  fc.assert(
    fc.property(fc.array(gram, { minLength: 3, maxLength: 3 }), (added) => {
      const running = added.map((_, place) => added.slice(0, place + 1).reduce((sum, one) => sum + one, 0))
      for (const [place, grams] of added.entries()) {
        expect(addedAt(steps, place, 'run', running)).toBeCloseTo(grams, 6)
        expect(addedAt(steps, place, 'tare', added)).toBe(grams)
      }
    }),
  )
})

test('what nobody can work out asks for nothing, and what follows it neither where the scale runs on', () => {
  const unknown = [{ add: null }, { add: 50 }]
  expect([wantedAt(unknown, 0, 'run', []), wantedAt(unknown, 1, 'run', [])]).toEqual([null, null])
  expect(wantedAt(unknown, 1, 'tare', [])).toBe(50)
  expect(wantedAt(unknown, 1, 'run', [20])).toBe(70)
  expect(addedAt(unknown, 1, 'run', [null, 70])).toBeNull()
})

test('brewing comes before its pouring, as a step of its own', () => {
  const sheet = stepsFor(aTrial([aLine({ name: 'Syrup' }), grounds(15)], { brew: aBrew() }), 2, AS_ON_SHEET)
  expect(doingsOf(sheet).map(({ kind, place }) => [kind, place])).toEqual([
    ['weigh', 0],
    ['brew', 1],
    ['weigh', 1],
  ])
  expect(doingsOf(sheet)[1]).toMatchObject({ brew: { dose: 30, water: 300 } })
})

test('the column stands at the foot of its band at the least that is right, and at its top at the most', () => {
  expect(columnLevel(28, 30, 2)).toBeCloseTo(BAND.foot, 12)
  expect(columnLevel(32, 30, 2)).toBeCloseTo(BAND.top, 12)
  expect([columnLevel(null, 30, 2), columnLevel(5, null, 2), columnLevel(0, 30, 2)]).toEqual([0, 0, 0])
  expect(columnLevel(500, 30, 2)).toBe(1)
  fc.assert(
    fc.property(fc.double({ min: 0, max: 100, noNaN: true }), fc.double({ min: 0, max: 100, noNaN: true }), (a, b) => {
      const [less, more] = a < b ? [a, b] : [b, a]
      expect(columnLevel(less, 30, 2)).toBeLessThanOrEqual(columnLevel(more, 30, 2))
      const inBand = columnLevel(a, 30, 2) >= BAND.foot && columnLevel(a, 30, 2) <= BAND.top
      if (offBy(30, 2, a) === null) expect(inBand).toBe(true)
    }),
  )
})
