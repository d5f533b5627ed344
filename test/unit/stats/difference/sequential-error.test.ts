import fc from 'fast-check'
import { expect, test } from 'vitest'
import { operatingFigures } from '@/lib/stats/difference/sequential-error'
import { sequentialLines } from '@/lib/stats/difference/sequential-lines'

test('under one half both cups are alike; the other share is the mirror image', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.6, max: 0.9, noNaN: true }), fc.integer({ min: 1, max: 60 }), (p1, max) => {
      const lines = sequentialLines({ p1, alpha: 0.1, beta: 0.1, max })
      const half = operatingFigures(lines, max, 0.5)
      expect(half.showA).toBeCloseTo(half.showB, 12)
      expect(half.average).toBeLessThanOrEqual(max + 1e-9)
      const there = operatingFigures(lines, max, p1)
      const back = operatingFigures(lines, max, 1 - p1)
      expect(there.showA).toBeCloseTo(back.showB, 12)
      expect(there.average).toBeCloseTo(back.average, 9)
    }),
  )
})

test('one answer cannot decide', () => {
  const lines = sequentialLines({ p1: 0.7, alpha: 0.05, beta: 0.1, max: 1 })
  expect(operatingFigures(lines, 1, 0.7)).toEqual({ showA: 0, showB: 0, average: 1 })
})

test('Wald’s bound holds: the false alarm stays below alpha / (1 − beta)', () => {
  const lines = sequentialLines({ p1: 0.7, alpha: 0.05, beta: 0.1, max: 400 })
  const { showA, showB } = operatingFigures(lines, 400, 0.5)
  expect(showA + showB).toBeLessThan(0.05 / 0.9)
})
