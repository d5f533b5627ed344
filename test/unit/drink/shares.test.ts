import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { madeAt } from '@/lib/drink/cost-level'
import { gramsOfShares, untrueShares, withTrueShares } from '@/lib/drink/shares'
import { scaleBuild } from '@/lib/drink/scale'
import { sizeOf, usualVessel } from '@/lib/drink/sizes'
import type { Brew, BuildLine } from '@/lib/drink/trial'
import { aBrew, aLine, aTrial, grounds, ice, water } from '../../support/drink-lines'

const percent = (name: string, amount: number, over: Partial<BuildLine> = {}) =>
  aLine({ name, targetGrams: Number.NaN, typed: { amount, unit: 'percent', density: null }, ...over })

const brew = aBrew()

const gramsIn = (lines: readonly BuildLine[], how: Brew | null = null) => {
  const solved = gramsOfShares(lines, how)
  return solved.ok ? Object.fromEntries(solved.value) : solved
}

/*
 * By hand: 15 g of coffee at 1:10 keep 2 g of water each, 15 · (10 − 2) = 120 g of coffee as brewed; with 126 g of ice 246 g.
 * Date syrup 12 % and oat drink 6 % leave 82 % for these: the glass is 246 / 0.82 = 300 g, the syrup 36 g, the oat drink 18 g.
 */
test('a share is of the whole glass as built: coffee as brewed, ice with it, the shares themselves', () => {
  const others = [grounds(15), ice(126)]
  const shares = [percent('Date syrup', 12), percent('Oat drink', 6)]
  const solved = gramsIn([...others, ...shares], brew)
  expect(solved).toEqual({ 'Date syrup': expect.closeTo(36, 9), 'Oat drink': expect.closeTo(18, 9) })
  // what the scale showed another day is no plan
  const weighed = [grounds(15, { weighedGrams: 20 }), ice(126)]
  expect(gramsIn([...weighed, ...shares], brew)).toEqual(solved)
  expect(gramsIn([water(10)])).toEqual({})
})

test.each([
  ['every line is a share', [percent('a', 40), percent('b', 20)], 'share-of-nothing', { key: 'b' }],
  ['together they are all', [water(10), percent('a', 70), percent('b', 30)], 'shares-too-much', { percent: '100' }],
  [
    'together they are more',
    [water(10), percent('a', 70.5), percent('b', 40)],
    'shares-too-much',
    { percent: '110.5' },
  ],
  ['dry coffee', [water(10), percent('Coffee', 6, { kind: 'coffee', form: 'grounds' })], 'share-of-grounds', {}],
  ['another amount is not known', [water(Number.NaN), percent('a', 10)], 'share-of-unknown', { key: 'a' }],
  ['a brew without its ratio', [grounds(15), percent('a', 10)], 'share-of-unknown', { key: 'a' }],
] as const)('no share is taken where %s', (_, lines, reason, detail) => {
  expect(gramsOfShares(lines, { ...brew, ratio: null })).toMatchObject({ ok: false, reason, detail })
})

test('whatever is typed, each line is that share of what is then in the glass', () => {
  const others = fc.array(fc.integer({ min: 20_000, max: 3_000_000 }), { minLength: 1, maxLength: 4 })
  // thousandths of a percent, together below 100
  const typed = fc.array(fc.integer({ min: 10, max: 19_000 }), { minLength: 1, maxLength: 5 })
  fc.assert(
    fc.property(others, typed, (milligrams, thousandths) => {
      const fixed = milligrams.map((mg, at) => water(mg / 1000, { key: `w${at}` }))
      const shares = thousandths.map((amount, at) => percent(`p${at}`, amount / 1000))
      const solved = gramsOfShares([...fixed, ...shares], null)
      if (!solved.ok) throw new Error(solved.reason)
      const whole = fixed.reduce((all, { targetGrams }) => all + targetGrams, 0)
      const glass = [...solved.value.values()].reduce((all, grams) => all + grams, whole)
      for (const line of shares)
        expect((100 * (solved.value.get(line.key) ?? 0)) / glass).toBeCloseTo(line.typed?.amount ?? 0, 9)
      // kept to a milligram, it is still said to be that share
      const kept = [...fixed, ...shares].map((line) => ({
        ...line,
        targetGrams: Math.round(1000 * (solved.value.get(line.key) ?? line.targetGrams)) / 1000,
      }))
      expect([...untrueShares(kept, null)]).toEqual([])
    }),
  )
})

/* By hand: 20 g beside 180 g are 10 % of 200 g; beside 200 g they are 9.09 %. */
test('a share that is none any more is said no longer; of more glasses it is the same share', () => {
  const syrup = percent('Date syrup', 10, { targetGrams: 20 })
  const glass = aTrial([water(180), syrup])
  expect(withTrueShares(glass)).toBe(glass)
  expect(withTrueShares(aTrial([water(200), syrup])).lines[1]).toMatchObject({ targetGrams: 20, typed: null })
  expect(scaleBuild(glass, 3).lines[1]).toMatchObject({ targetGrams: 60, typed: { amount: 10, unit: 'percent' } })
  const sized = sizeOf({ ...glass, lines: glass.lines.map((line) => ({ ...line, density: 1 })) }, usualVessel(12), {
    ice: null,
    coffee: null,
  })
  expect(sized.known && sized.build.lines.map(({ typed }) => typed)).toEqual([null, null])
})

/* By hand: 15 g of grounds are 120 g in the glass, so 13.33 g of syrup are a tenth of it; 15 g of bottled coffee are 15 g. */
test('where a cost level pours another coffee, the share is looked at again', () => {
  const syrup = percent('Date syrup', 10, { targetGrams: 120 / 9 })
  const glass = { ...aTrial([grounds(15), syrup]), brew }
  expect(untrueShares(glass.lines, brew).size).toBe(0)
  const level = { id: 'e', name: 'economy' }
  const bottled = aLine({ name: 'Bottled coffee', kind: 'coffee', targetGrams: 15 })
  const made = madeAt(glass, level, [{ key: 'Roast coffee', level, line: bottled }])
  expect(made.lines[1]).toMatchObject({ targetGrams: 120 / 9, typed: null })
})
