import fc from 'fast-check'
import { expect, test } from 'vitest'
import { dose } from '@/lib/stats/dose/dose'
import { UnusableReadings } from '@/lib/stats/outcome'

const panel = (height: (dose: number, taster: number) => number, doses = [2, 4, 6, 8]) =>
  Array.from({ length: 6 }, (_, i) =>
    doses.map((amount, j) => ({
      taster: `t${i}`,
      dose: amount,
      score: height(amount, i) + (((i * 7 + j * 5) % 4) - 1.5) / 5,
    })),
  ).flat()
const bowl = (amount: number): number => 7 - 0.3 * (amount - 5) ** 2

test('the five shapes', () => {
  const shape = (height: (dose: number) => number) => dose(panel(height), { level: 0.95 }).shape
  expect(shape(bowl)).toBe('peak')
  expect(shape((x) => -bowl(x))).toBe('trough')
  expect(shape((x) => x)).toBe('rising')
  expect(shape((x) => -x)).toBe('falling')
  expect(shape(() => 5)).toBe('flat')
})

test('a bend whose top lies beyond the doses tried is a slope, and has no optimum', () => {
  const answer = dose(
    panel((x) => -0.3 * (x - 12) ** 2),
    { level: 0.95 },
  )
  expect(answer).toMatchObject({ shape: 'rising', optimum: null })
})

test('a missing cell turns the interval to the model', () => {
  const rows = panel(bowl)
  expect(dose(rows, { level: 0.95 }).optimum?.intervalBasis).toBe('tasters')
  const gap = dose(
    rows.map((row, i) => (i === 3 ? { ...row, score: null } : row)),
    { level: 0.95 },
  )
  expect(gap.optimum?.intervalBasis).toBe('model')
  expect(gap.optimum?.interval).toEqual(gap.optimum?.intervalModel)
  expect(gap.counts.missing).toBe(1)
})

test('tasters whose own optima lie apart widen the interval', () => {
  const { optimum } = dose(
    panel((x, i) => 7 - 0.3 * (x - 3.5 - 0.6 * i) ** 2),
    { level: 0.95 },
  )
  const width = ([low, high]: readonly [number, number]): number => high - low
  expect(width(optimum?.interval ?? [0, 0])).toBeGreaterThan(width(optimum?.intervalModel ?? [0, 99]))
})

test('row order changes nothing', () => {
  expect(dose(panel(bowl).toReversed(), { level: 0.95 })).toEqual(dose(panel(bowl), { level: 0.95 }))
})

test('all scores equal, or on the curve, is an answer with a note', () => {
  const flat = dose(
    ['x', 'y'].flatMap((taster) => [1, 2, 3].map((amount) => ({ taster, dose: amount, score: 5 }))),
    { level: 0.95 },
  )
  expect(flat).toMatchObject({ shape: 'flat', optimum: null, lackOfFit: null })
  const exact = dose(
    ['x', 'y'].flatMap((taster) => [1, 2, 3, 4].map((amount) => ({ taster, dose: amount, score: bowl(amount * 2) }))),
    { level: 0.95 },
  )
  expect(exact.shape).toBe('peak')
  expect(exact.notes.join()).toContain('meets every score')
})

test('fewer than three doses, and doses that are not finite, are refused', () => {
  expect(() => dose(panel(bowl, [2, 4]), { level: 0.95 })).toThrow(UnusableReadings)
  expect(() => dose(panel(bowl, [2, 4]), { level: 0.95 })).toThrow('2, 4')
  expect(() => dose([{ taster: 'x', dose: NaN, score: 1 }], { level: 0.95 })).toThrow('got NaN')
})

test('no number is ever NaN or infinite, no p outside 0 to 1', () => {
  const row = fc.record({
    taster: fc.constantFrom('x', 'y', 'z'),
    dose: fc.constantFrom(1, 2, 3, 5),
    score: fc.option(fc.integer({ min: 1, max: 9 }), { nil: null }),
  })
  fc.assert(
    fc.property(fc.array(row, { maxLength: 14 }), (rows) => {
      let answer
      try {
        answer = dose(rows, { level: 0.9 })
      } catch (refusal) {
        expect(refusal).toBeInstanceOf(UnusableReadings)
        return
      }
      JSON.stringify(answer, (key, x: unknown) => {
        if (typeof x === 'number') expect(Number.isFinite(x), key).toBe(true)
        if (typeof x === 'number' && key === 'p') expect(x >= 0 && x <= 1).toBe(true)
        return x
      })
    }),
  )
})
