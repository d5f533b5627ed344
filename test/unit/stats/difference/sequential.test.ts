import { expect, test } from 'vitest'
import { sequential } from '@/lib/stats/difference/sequential'

const plan = { p1: 0.75, alpha: 0.1, beta: 0.1, max: 30 }
const answers = (text: string) => [...text].map((letter): 'a' | 'b' => (letter === 'A' ? 'a' : 'b'))

test('answers that all fall on one side decide where the line is met', () => {
  // Upper line: x ≥ ln 18 / ln 3 + n ln 2 / ln 3, so n ≥ ln 18 / (ln 3 − ln 2) = 7.1: the 8th
  expect(sequential(answers('AAAAAAAAAA'), plan)).toMatchObject({
    decision: 'a preferred',
    at: 8,
    counts: { tasters: 8, preferA: 8, preferB: 0 },
  })
  expect(sequential(answers('BBBBBBBBBB'), plan)).toMatchObject({ decision: 'b preferred', at: 8 })
  expect(sequential(answers('AAAAAAAAAA'), plan).notes[0]).toContain('2 answers after')
})

test('answers that alternate end without a preference', () => {
  expect(sequential(answers('AB'.repeat(15)), plan).decision).toBe('no preference shown')
})

test('too few go on; at the cap it is undecided', () => {
  expect(sequential(answers('AAAB'), plan)).toMatchObject({ decision: 'go on', at: 4 })
  expect(sequential(answers('AAABA'), { ...plan, max: 5 })).toMatchObject({ decision: 'undecided at the cap', at: 5 })
  expect(sequential([], plan)).toMatchObject({ decision: 'go on', at: 0 })
})

test('exact figures are chances and counts', () => {
  const { exact } = sequential([], plan)
  for (const x of [exact.falseAlarm, exact.power]) expect(x >= 0 && x <= 1).toBe(true)
  expect(exact.power).toBeGreaterThan(exact.falseAlarm)
  expect(exact.averageTasters).toBeLessThanOrEqual(plan.max)
})
