import { expect, test } from 'vitest'
import { tastersForDifference, tastersForPreference, tastersForSimilarity } from '@/lib/stats/plan/choice-power'

test('the power at the n found reaches the target and that of one taster fewer does not', () => {
  const question = { protocol: 'tetrad', pd: 0.25, alpha: 0.05 } as const
  const { n, power } = tastersForDifference(question, { power: 0.85 })
  expect(power).toBeGreaterThanOrEqual(0.85)
  expect(tastersForDifference(question, { n })).toMatchObject({ n, power, notes: [] })
  for (let fewer = 1; fewer < n; fewer++) expect(tastersForDifference(question, { n: fewer }).power).toBeLessThan(0.85)
})

test('a panel too small to be significant has power 0, no critical number, and a note', () => {
  const answer = tastersForDifference({ protocol: 'triangle', pd: 0.5, alpha: 0.001 }, { n: 4 })
  expect(answer).toMatchObject({ power: 0, critical: null })
  expect(answer.notes[0]).toContain('4 tasters')
})

test('everybody who can tell is right: power 1 as soon as significance is possible', () => {
  expect(tastersForDifference({ protocol: 'duo-trio', pd: 1, alpha: 0.05 }, { power: 0.9 })).toMatchObject({
    n: 5,
    power: 1,
    critical: 5,
  })
})

test('a true share nearer to the limit asks for more tasters', () => {
  const question = { protocol: 'triangle', pd: 0.3, alpha: 0.05 } as const
  const none = tastersForSimilarity(question, { power: 0.8 }).n
  const some = tastersForSimilarity({ ...question, truth: 0.1 }, { power: 0.8 }).n
  expect(some).toBeGreaterThan(none)
})

test('a preference for either cup asks for the same number', () => {
  const one = tastersForPreference({ share: 0.7, alpha: 0.05 }, { power: 0.8 })
  const other = tastersForPreference({ share: 0.3, alpha: 0.05 }, { power: 0.8 })
  expect(other.n).toBe(one.n)
  expect(Math.abs(other.power - one.power)).toBeLessThan(1e-12)
})

test('several thousand tasters are found', () => {
  expect(tastersForDifference({ protocol: 'duo-trio', pd: 0.03, alpha: 0.05 }, { power: 0.9 }).n).toBeGreaterThan(5000)
})

test.each([
  () => tastersForDifference({ protocol: 'triangle', pd: 0, alpha: 0.05 }, { power: 0.8 }),
  () => tastersForDifference({ protocol: 'triangle', pd: 0.3, alpha: 0 }, { power: 0.8 }),
  () => tastersForSimilarity({ protocol: 'triangle', pd: 0.3, alpha: 0.05, truth: 0.3 }, { power: 0.8 }),
  () => tastersForPreference({ share: 0.5, alpha: 0.05 }, { power: 0.8 }),
  () => tastersForPreference({ share: 1, alpha: 0.05 }, { power: 0.8 }),
  () => tastersForPreference({ share: Number.NaN, alpha: 0.05 }, { n: 20 }),
  () => tastersForDifference({ protocol: 'triangle', pd: 0.3, alpha: 0.05 }, { n: 0 }),
])('a question that cannot be asked is refused (%#)', (ask) => {
  expect(ask).toThrow(RangeError)
})
