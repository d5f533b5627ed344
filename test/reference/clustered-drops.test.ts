/**
 * Drops in liking where tasters gave several answers.
 * Made   make/clustered-drops.R, R 4.2.2: lm on two groups, clubSandwich's CR2 by taster, Satterthwaite. Within 1e-9 relative, degrees of
 *        freedom within 1e-6.
 */
import { expect, test } from 'vitest'
import made from './data/clustered-drops.json'
import { jar } from '@/lib/stats/liking/just-about-right'

test.each(made.cases)('both sides (%#)', ({ rows, tooLittle, tooMuch }) => {
  const answer = jar(
    rows.map(([taster, attribute, liking]) => ({
      taster: String(taster),
      attribute: Number(attribute),
      liking: Number(liking),
    })),
    { level: 0.95 },
  )
  for (const [ours, theirs] of [
    [answer.tooLittle, tooLittle],
    [answer.tooMuch, tooMuch],
  ] as const) {
    expect(ours?.n).toBe(theirs.n)
    expect(ours?.meanDrop).toBeCloseTo(theirs.meanDrop, 9)
    expect(ours?.se).toBeCloseTo(theirs.se, 9)
    expect(ours?.df).toBeCloseTo(theirs.df, 6)
    expect(ours?.interval?.[0]).toBeCloseTo(theirs.low, 6)
    expect(ours?.interval?.[1]).toBeCloseTo(theirs.high, 6)
    expect(ours?.p).toBeCloseTo(theirs.p, 8)
  }
  expect(answer.counts.tasters).toBe(new Set(rows.map(([taster]) => taster)).size)
})
