import { expect, test } from 'vitest'
import { MEASURES, gramsOfLine, groundsContents, ingredientContents, shareOf, together } from '@/lib/drink/contents'
import { tally } from '@/lib/drink/figure'
import { aBrew, aLine, grounds, ice, per100, sugar, water } from '../../support/drink-lines'

test('water and ice are water without anyone saying so', () => {
  for (const line of [water(50), ice(50)]) {
    const all = ingredientContents(line)
    expect([all.water.total, all.sugars.total, all.energy.total]).toEqual([50, 0, 0])
  }
})

test('an ingredient without composition asks for each figure by name', () => {
  const all = ingredientContents(aLine({ name: 'Date syrup', composition: null, density: null, costPerGram: null }))
  expect(all.sugars.missing).toEqual(['sugars of Date syrup'])
  expect(all.volume.missing).toEqual(['density of Date syrup'])
  expect(all.cost.missing).toEqual(['price of Date syrup'])
  expect(all.caffeineLow.missing).toEqual(['caffeine of Date syrup'])
})

test('a sweetener’s sugars are free, a milk’s must be said', () => {
  const kindOf = (kind: 'sweetener' | 'milk') =>
    ingredientContents(aLine({ name: 'X', kind, composition: per100({ sugars: 50, freeSugars: null }) }))
  expect(kindOf('sweetener').freeSugars.total).toBe(50)
  expect(kindOf('milk').freeSugars.missing).toEqual(['free sugars of X'])
})

test('a weight on the scale comes before its target, and nothing weighs nothing', () => {
  expect(gramsOfLine(aLine({ targetGrams: 20, weighedGrams: 21 })).total).toBe(21)
  expect(gramsOfLine(aLine({ name: 'Ice', targetGrams: 0 })).missing).toEqual(['amount of Ice above zero'])
  expect(gramsOfLine(aLine({ targetGrams: Number.NaN })).missing.length).toBe(1)
})

test('grounds cost their whole dose, although only the beverage is poured', () => {
  const all = groundsContents(grounds(15), aBrew())
  expect(all.grams.total).toBe(120)
  expect(all.cost.total).toBeCloseTo(15 * 0.018, 12)
  expect(groundsContents(grounds(15), null).coffeeSolids.missing).toEqual(['how Roast coffee is brewed'])
})

test('two halves are the whole in every measure', () => {
  const whole = ingredientContents(sugar(80))
  const half = shareOf(whole, tally(0.5, ''))
  const both = together([half, half])
  for (const measure of MEASURES) expect(both[measure].total).toBeCloseTo(whole[measure].total, 12)
})

test('caffeine beyond what coffee can hold is not computed with', () => {
  const all = groundsContents(grounds(15, { composition: per100({ caffeineLow: 2e5, caffeineHigh: 3e5 }) }), aBrew())
  expect(all.caffeineLow.missing.length).toBe(1)
})

// By hand, with 0.95 released and 8 parts of 10 served (trade figures kept with `CAFFEINE_RELEASE` and the spread of 30 %):
// 15 g · 10 mg/g · 0.95 · 0.8 = 114 mg, less 30 % = 79.8; 15 g · 24 mg/g · 0.95 · 0.8 = 273.6 mg, and 30 % more = 355.68.
// Decaffeinated, 10 to 120 mg in 100 g: 1.14 mg less 30 % = 0.798; 13.68 mg and 30 % more = 17.784.
test('caffeine of grounds runs from the low end of the label to its high end, never from their mean', () => {
  const between = (caffeineLow: number, caffeineHigh: number) =>
    groundsContents(grounds(15, { composition: per100({ caffeineLow, caffeineHigh }) }), aBrew())
  const wide = between(1000, 2400)
  expect(wide.caffeineLow.total).toBeCloseTo(79.8, 9)
  expect(wide.caffeineHigh.total).toBeCloseTo(355.68, 9)
  const decaf = between(10, 120)
  expect(decaf.caffeineLow.total).toBeCloseTo(0.798, 9)
  expect(decaf.caffeineHigh.total).toBeCloseTo(17.784, 9)
})

test('water and ice cost nothing while nobody priced them, and say so; priced they cost', () => {
  for (const plain of [water(100, { costPerGram: null }), ice(100, { costPerGram: null })]) {
    const { cost } = ingredientContents(plain)
    expect(cost).toEqual({ total: 0, missing: [], assumed: [`${plain.name} costs nothing (no price entered)`] })
  }
  expect(ingredientContents(ice(100, { costPerGram: 0.002 })).cost).toMatchObject({ total: 0.2, assumed: [] })
})
