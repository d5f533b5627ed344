import { expect, test } from 'vitest'
import { UnusableReadings } from '@/lib/stats/outcome'
import { repeats } from '@/lib/stats/over-panels/repeats'

const rows = [0.4, 0.9, -0.1].map((difference, i) => ({ study: `panel ${i + 1}`, difference, se: 0.3 + i / 10 }))
const options = { level: 0.95, tau: 'dersimonian-laird' } as const

test('one panel is its own estimate, two have no prediction', () => {
  const one = repeats(rows.slice(0, 1), options)
  expect(one).toMatchObject({
    estimate: 0.4,
    tauSquared: 0,
    Q: 0,
    df: 0,
    p: null,
    iSquared: null,
    intervalHartungKnapp: null,
    prediction: null,
  })
  expect(one.se).toBeCloseTo(0.3, 14)
  expect(repeats(rows.slice(0, 2), options)).toMatchObject({ df: 1, prediction: null })
})

test('gaps are counted, row order is nothing, the other sign turns everything', () => {
  const answer = repeats([...rows, { study: 'panel 4', difference: null, se: 0.3 }], options)
  expect(answer.counts).toEqual({ studies: 3, missing: 1 })
  expect(repeats(rows.toReversed(), options).estimate).toBe(answer.estimate)
  const turned = repeats(
    rows.map((row) => ({ ...row, difference: -row.difference })),
    options,
  )
  expect(turned.estimate).toBeCloseTo(-answer.estimate, 12)
  expect(turned.interval[0]).toBeCloseTo(-answer.interval[1], 12)
})

test('Hartung–Knapp is never shorter than t on the plain standard error', () => {
  const alike = [0.5, 0.5, 0.5].map((difference, i) => ({ study: `${i}`, difference, se: 0.2 }))
  const { intervalHartungKnapp, interval } = repeats(alike, options)
  expect(intervalHartungKnapp?.[0]).toBeLessThan(interval[0])
})

test('no panel, and a standard error of 0, are refused', () => {
  expect(() => repeats([], options)).toThrow(UnusableReadings)
  expect(() => repeats([{ study: 'x', difference: 1, se: 0 }], options)).toThrow(
    'panel x: a standard error must be above 0, got 0',
  )
})
