import { expect, test } from 'vitest'
import { tastersForAcceptance, tastersForEquivalence, tastersForNotWorse } from '@/lib/stats/plan/score-power'

test('comparing with a control divides alpha by fewer comparisons and needs fewer tasters', () => {
  const question = { sd: 1.5, difference: 0.7, cups: 5, alpha: 0.05, plan: 'all' as const }
  const all = tastersForAcceptance(question, { power: 0.8 })
  const control = tastersForAcceptance({ ...question, plan: 'against' }, { power: 0.8 })
  expect(all.method).toContain('10 comparisons')
  expect(control.method).toContain('4 comparisons')
  expect(control.n).toBeLessThan(all.n)
})

test('one taster fewer than the n found does not reach the power', () => {
  const cases = [
    (aim: { power: number } | { n: number }) =>
      tastersForAcceptance({ sd: 1.5, difference: 0.7, cups: 4, alpha: 0.05, plan: 'all' }, aim),
    (aim: { power: number } | { n: number }) =>
      tastersForNotWorse({ sd: 1.5, margin: 0.5, alpha: 0.05, truth: 0.1 }, aim),
    (aim: { power: number } | { n: number }) =>
      tastersForEquivalence({ sd: 1.5, margin: 0.6, alpha: 0.05, truth: -0.1 }, aim),
  ]
  for (const ask of cases) {
    const { n, power } = ask({ power: 0.8 })
    expect(power).toBeGreaterThanOrEqual(0.8)
    expect(ask({ n: n - 1 }).power).toBeLessThan(0.8)
  }
})

test('the sign of the difference, and of the truth in equivalence, does not matter', () => {
  const up = tastersForAcceptance({ sd: 1, difference: 0.5, cups: 3, alpha: 0.05, plan: 'all' }, { n: 40 }).power
  const down = tastersForAcceptance({ sd: 1, difference: -0.5, cups: 3, alpha: 0.05, plan: 'all' }, { n: 40 }).power
  expect(up).toBe(down)
  const above = tastersForEquivalence({ sd: 1, margin: 0.5, alpha: 0.05, truth: 0.2 }, { n: 60 }).power
  const below = tastersForEquivalence({ sd: 1, margin: 0.5, alpha: 0.05, truth: -0.2 }, { n: 60 }).power
  expect(Math.abs(above - below)).toBeLessThan(1e-12)
})

test('with no difference at all the power is alpha', () => {
  const { power } = tastersForAcceptance({ sd: 1, difference: 0, cups: 2, alpha: 0.05, plan: 'all' }, { n: 30 })
  expect(Math.abs(power - 0.05)).toBeLessThan(1e-12)
})

test.each([
  () => tastersForAcceptance({ sd: 0, difference: 1, cups: 3, alpha: 0.05, plan: 'all' }, { power: 0.8 }),
  () => tastersForAcceptance({ sd: 1, difference: 0, cups: 3, alpha: 0.05, plan: 'all' }, { power: 0.8 }),
  () => tastersForAcceptance({ sd: 1, difference: 1, cups: 1, alpha: 0.05, plan: 'all' }, { power: 0.8 }),
  () => tastersForAcceptance({ sd: 1, difference: 1, cups: 3, alpha: 0.05, plan: 'all' }, { n: 1 }),
  () => tastersForNotWorse({ sd: 1, margin: 0, alpha: 0.05 }, { power: 0.8 }),
  () => tastersForNotWorse({ sd: 1, margin: 0.5, alpha: 0.05, truth: -0.5 }, { power: 0.8 }),
  () => tastersForEquivalence({ sd: 1, margin: 0.5, alpha: 0.05, truth: 0.5 }, { power: 0.8 }),
  () => tastersForEquivalence({ sd: 1, margin: Number.NaN, alpha: 0.05 }, { power: 0.8 }),
])('a question that cannot be asked is refused (%#)', (ask) => {
  expect(ask).toThrow(RangeError)
})
