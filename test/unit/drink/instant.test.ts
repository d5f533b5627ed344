import { expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import { isBrewed, isInstant } from '@/lib/drink/instant'
import { ratioLadder } from '@/lib/drink/ladder'
import { scaleSheet } from '@/lib/drink/scale'
import { aBrew, aLine, aTrial, grounds, per100, water } from '../../support/drink-lines'

const instant = aLine({
  key: 'c',
  name: 'Instant coffee',
  kind: 'coffee',
  form: 'powder',
  targetGrams: 2,
  density: null,
  temperature: null,
  composition: per100({ water: 3.1, coffeeSolids: 96.9, caffeineLow: 3142, caffeineHigh: 3142 }),
})
const brew = aBrew({ method: 'Instant', brewing: 'dissolved', ratio: 75, retention: null, extractionPercent: null })

test('2 g dissolved in 150 g is a beverage of 152 g at 1.316 % (A2 of the trade facts, computed from t = m/(m + W))', () => {
  const figures = computeBuild(aTrial([instant], { brew }))
  expect(figures.totalMass).toMatchObject({ value: 152 })
  expect(figures.brew?.strength.known && figures.brew.strength.value).toBeCloseTo(1.316, 3)
  expect(figures.brew?.beverage).toMatchObject({ formula: '150 + 2', assumed: [] })
  // 31.42 mg/g (USDA, from memory): nothing stays behind.
  expect(figures.caffeine.known && figures.caffeine.value).toBeCloseTo(62.84, 9)
})

test('with a beverage-out ratio the whole beverage is that many times the powder', () => {
  const figures = computeBuild(aTrial([instant], { brew: { ...brew, ratioKind: 'beverage-out' } }))
  expect(figures.totalMass).toMatchObject({ value: 150 })
})

test('without a ratio its water is a line of its own', () => {
  const bare = { ...brew, ratio: null }
  expect(isInstant(instant, bare)).toBe(false)
  expect(computeBuild(aTrial([instant, water(150)], { brew: bare })).totalMass).toMatchObject({ value: 152 })
})

test('a ratio ladder of instant coffee keeps the glass as full, and the scale sees the beverage', () => {
  const trial = aTrial([instant], { brew })
  for (const rung of ratioLadder(trial, [50, 100], 'beverage')) {
    const { totalMass } = computeBuild(rung)
    expect(totalMass.known && totalMass.value).toBeCloseTo(152, 9)
  }
  expect(scaleSheet(trial, 1).steps[0]).toMatchObject({ brew: { dose: 2 }, add: 152 })
})

test('ground coffee does not dissolve', () => {
  const { problems } = computeBuild(aTrial([grounds(15)], { brew }))
  expect(problems.map(({ field }) => field)).toEqual(['brew.method'])
  expect(isBrewed(grounds(15), null)).toBe(true)
})
