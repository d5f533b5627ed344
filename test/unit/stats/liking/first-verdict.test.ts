import { expect, test } from 'vitest'
import { firstVerdict } from '@/lib/stats/liking/first-verdict'
import type { AcceptanceRow } from '@/lib/stats/liking/acceptance-row'

const LEVEL = { level: 0.95 }

const full = (scores: readonly (readonly number[])[]): AcceptanceRow[] =>
  scores.flatMap((row, taster) => row.map((score, cup) => ({ taster: `t${taster}`, cup: `c${cup}`, score })))

const eight = full([
  [5, 6, 7],
  [4, 6, 5],
  [6, 8, 7],
  [5, 5, 6],
  [3, 6, 6],
  [7, 8, 9],
  [5, 7, 6],
  [4, 5, 7],
])

test('with every score verdicts rest on the tasters’ own differences, with one missing on the model', () => {
  const whole = firstVerdict(eight, LEVEL)
  expect(whole.pairs.every(({ verdict, paired }) => verdict.basis === 'paired' && verdict.pHolm === paired.pHolm)).toBe(
    true,
  )
  const gap = firstVerdict(eight.slice(1), LEVEL)
  expect(gap.pairs.every(({ verdict, pHolm }) => verdict.basis === 'model' && verdict.pHolm === pHolm)).toBe(true)
})

test('the letters agree with the verdicts, and the top with the letters', () => {
  for (const rows of [eight, eight.slice(1)]) {
    const { pairs, groups, top } = firstVerdict(rows, { level: 0.6 })
    for (const { a, b, verdict } of pairs) {
      const shared = [...(groups[a] ?? '')].some((letter) => groups[b]?.includes(letter))
      expect(shared).toBe(!(verdict.pHolm !== null && verdict.pHolm <= 0.4 + 1e-12))
    }
    expect(top).toEqual(Object.keys(groups).filter((cup) => groups[cup]?.includes('a')))
  }
})

test('against a control Holm counts its comparisons only, each cup less the control', () => {
  const { control, pairs } = firstVerdict(eight, { ...LEVEL, control: 'c1' })
  expect(control?.pairs.map(({ cup }) => cup)).toEqual(['c0', 'c2'])
  const ps = [pairs[0]?.paired.p ?? 1, pairs[2]?.paired.p ?? 1]
  const [small, large] = [Math.min(...ps), Math.max(...ps)]
  const found = (control?.pairs ?? []).map(({ verdict }) => verdict.pHolm ?? 1)
  expect(Math.min(...found)).toBeCloseTo(2 * small, 12)
  expect(Math.max(...found)).toBeCloseTo(Math.max(2 * small, large), 12)
  // differences c0 − c1: −1 −2 −2 0 −3 −1 −2 −1, mean −1.5
  expect(control?.pairs[0]).toMatchObject({ difference: -1.5, verdict: { outcome: 'worse' } })
})

test('a margin is judged pair by pair on the verdict’s basis', () => {
  const { margin } = firstVerdict(eight, { ...LEVEL, margin: 2.5 })
  expect(margin?.pairs.map(({ basis }) => basis)).toEqual(['paired', 'paired', 'paired'])
  expect(margin?.pairs[0]?.aNotWorse.holds).toBe(true)
})

test('equal scores tell nothing', () => {
  const answer = firstVerdict(
    full([
      [5, 5],
      [5, 5],
      [5, 5],
    ]),
    { ...LEVEL, control: 'c0', margin: 1 },
  )
  expect(answer.pairs.every(({ p, verdict }) => p === null && verdict.outcome === 'cannot tell')).toBe(true)
  expect(answer.notes).toContain('Margin: null where the comparison has no standard error.')
})

test('an unknown control, a margin of zero and a level of 95 are refused with the value', () => {
  expect(() => firstVerdict(eight, { ...LEVEL, control: 'house' })).toThrow(/house/)
  expect(() => firstVerdict(eight, { ...LEVEL, margin: 0 })).toThrow(/got 0/)
  expect(() => firstVerdict(eight, { level: 95 })).toThrow(/got 95/)
})
