/**
 * Made      data/sprt.json: Wald's lines for ½ against 0.7, R 4.2.2 (there with alpha for one side, so twice that here);
 *           make/ranks-and-choices.R: every sequence of 12 to 15 answers followed to its end.
 * Within    1e-9
 */
import { expect, test } from 'vitest'
import { sequential } from '@/lib/stats/difference/sequential'
import { expectNear } from '../support/near'
import published from './data/sprt.json'
import made from './data/ranks-and-choices.json'

test('lines of one half against p1', () => {
  const cases = published.values.lines.filter(({ p0 }) => p0 === 0.5)
  expect(cases.length).toBeGreaterThan(0)
  for (const { a, b, p1, slope, h0, h1 } of cases) {
    const { lines } = sequential([], { p1, alpha: 2 * a, beta: b, max: 10 })
    expectNear(lines.slope, slope, 1e-12)
    expectNear(lines.lower, h0, 1e-12)
    expectNear(lines.upper, h1, 1e-12)
  }
})

test.each(made.cases.sequential)('p1 $p1, at most $max: error rates and average by counting every sequence', (one) => {
  const { lines, exact, decision } = sequential([], one)
  expect(decision).toBe('go on')
  expectNear(lines.slope, one.slope, 1e-12)
  expectNear(lines.lower, one.lower, 1e-12)
  expectNear(lines.upper, one.upper, 1e-12)
  expectNear(exact.falseAlarm, one.falseAlarm, 1e-12)
  expectNear(exact.power, one.power, 1e-12)
  expectNear(exact.averageTasters, one.averageTasters, 1e-12)
  expectNear(exact.averageTastersAtP1, one.averageTastersAtP1, 1e-12)
})

/** ISO 16820 example 2, duo-trio series A and C: the one-sided lines with alpha = beta = 0.10 against 0.70. */
test('the series of ISO 16820 end where they are printed to end', () => {
  const { A, C, parameters, decisions } = published.values.iso16820_example2
  const answers = (cumulative: readonly number[]) =>
    cumulative.map((x, i): 'a' | 'b' => (x > (cumulative[i - 1] ?? 0) ? 'a' : 'b'))
  const plan = { p1: parameters.p1, alpha: 2 * parameters.alpha, beta: parameters.beta, max: 60 }
  const shown = sequential(answers(C), plan)
  expect([shown.decision, shown.at]).toEqual(['a preferred', decisions.C.stop])
  // Series A ends as "similar" for correct answers; wrong answers are then not shown to lead either, or lead.
  const other = sequential(answers(A), plan)
  expect(other.decision).not.toBe('a preferred')
})
