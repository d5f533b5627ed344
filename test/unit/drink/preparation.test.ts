import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import type { BuildLine, Preparation } from '@/lib/drink/trial'
import { contentsOfLine, findLoop, preparationContents, brixOf } from '@/lib/drink/preparation'
import { aBatch, aBrew, aLine, grounds, per100, sugar, water } from '../../support/drink-lines'

const near = (a: number, b: number) => expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(b)))

/** A tree of syrups and mixes at most three deep; a syrup may lose part of its water, a mix part of itself. */
const grams = fc.double({ min: 1, max: 1000, noNaN: true })
const leaf: fc.Arbitrary<BuildLine> = fc.oneof(
  grams.map((g) => sugar(g)),
  grams.map((g) => water(g)),
)
const poured = (inner: fc.Arbitrary<Preparation>): fc.Arbitrary<BuildLine> =>
  fc
    .tuple(inner, fc.double({ min: 0.01, max: 1, noNaN: true }))
    .map(([preparation, share]) =>
      aLine({ name: preparation.name, targetGrams: (preparation.outputGrams ?? 0) * share, preparation }),
    )
const batch = (line: fc.Arbitrary<BuildLine>): fc.Arbitrary<Preparation> =>
  fc
    .tuple(fc.array(line, { minLength: 1, maxLength: 4 }), fc.boolean(), fc.double({ min: 0, max: 0.9, noNaN: true }))
    .map(([inputs, syrup, lost]) => {
      const all = inputs.map((one) => contentsOfLine(one, null))
      const mass = all.reduce((total, one) => total + one.grams.total, 0)
      const wet = all.reduce((total, one) => total + one.water.total, 0)
      return aBatch(inputs, { kind: syrup ? 'syrup' : 'mix', outputGrams: mass - lost * (syrup ? wet : mass) })
    })
const two = batch(fc.oneof(leaf, poured(batch(leaf))))
const three = batch(fc.oneof(leaf, poured(two)))

test('through every tree three deep, sugar and water make the mass, and a syrup keeps all its sugar', () => {
  fc.assert(
    fc.property(three, (preparation) => {
      const whole = preparationContents(preparation)
      const into = preparation.inputs.map((line) => contentsOfLine(line, null))
      const sugarIn = into.reduce((total, one) => total + one.sugars.total, 0)
      const massIn = into.reduce((total, one) => total + one.grams.total, 0)
      near(whole.sugars.total + whole.water.total, whole.grams.total)
      const kept = preparation.kind === 'syrup' ? 1 : whole.grams.total / massIn
      near(whole.sugars.total, sugarIn * kept)
      near(
        whole.sources.reduce((total, one) => total + one.sugars.total, 0),
        whole.sugars.total,
      )
      near(
        whole.cost.total,
        into.reduce((total, one) => total + one.cost.total, 0),
      )
    }),
  )
})

test('pouring a batch out in two parts brings the same as pouring it whole', () => {
  fc.assert(
    fc.property(three, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (preparation, share) => {
      const out = preparation.outputGrams ?? 0
      const part = (g: number) => contentsOfLine(aLine({ targetGrams: g, preparation }), null).sugars.total
      near(part(out * share) + part(out * (1 - share)), preparationContents(preparation).sugars.total)
    }),
  )
})

test('a batch nobody weighed gives nothing per gram, but its allergens', () => {
  const all = preparationContents(aBatch([sugar(10, { labelRead: false })], { outputGrams: null, name: 'Syrup' }))
  expect(all.sugars.missing).toEqual(['output of Syrup, weighed'])
  expect(all.cost.missing).toEqual(['output of Syrup, weighed'])
  expect(all.parts).toMatchObject([{ name: 'White sugar', labelRead: false }])
})

test('an output heavier than its inputs, or lighter than what cannot boil off, is not computed with', () => {
  const heavy = preparationContents(aBatch([sugar(100), water(100)], { outputGrams: 201 }))
  expect(heavy.sugars.missing.join()).toContain('not heavier than what went in')
  const light = preparationContents(aBatch([sugar(100), water(100)], { outputGrams: 90 }))
  expect(light.water.missing.join()).toContain('cannot boil off')
})

test('a loop is named by its path, between batches and in the tree itself', () => {
  expect(
    findLoop(
      new Map([
        ['a', ['b']],
        ['b', ['c', 'd']],
        ['c', []],
        ['d', ['b']],
      ]),
    ),
  ).toEqual(['b', 'd', 'b'])
  expect(
    findLoop(
      new Map([
        ['a', ['b', 'c']],
        ['b', ['c']],
        ['c', []],
      ]),
    ),
  ).toBeNull()
  expect(findLoop(new Map([['a', ['a']]]))).toEqual(['a', 'a'])
  const inputs: BuildLine[] = [water(10)]
  const loop = aBatch(inputs, { name: 'Round', outputGrams: 10 })
  inputs.push(aLine({ name: 'Round', targetGrams: 5, preparation: loop }))
  expect(preparationContents(loop).sugars.missing.join()).toContain('Round → Round')
})

test('a brew’s beverage holds its water and its solids, with what was stirred into the pot', () => {
  const pot = aBatch([grounds(60), water(900), sugar(100)], {
    kind: 'brew',
    outputGrams: 860,
    brew: aBrew({ ratio: null }),
  })
  const all = preparationContents(pot)
  near(all.grams.total, 860)
  near(all.water.total + all.coffeeSolids.total + all.sugars.total, 860)
  // The grounds keep liquid as sweet as the pot: 100 g in 1000 g of liquid stays 10 % of what is not coffee.
  near(all.sugars.total / (all.grams.total - all.coffeeSolids.total), 0.1)
})

test('a brew of two coffees has the caffeine and cost of both', () => {
  const part = (dose: number) => grounds(dose)
  const brew = aBrew({ ratio: null })
  const one = preparationContents(aBatch([part(60), water(1000)], { kind: 'brew', outputGrams: 880, brew }))
  const split = preparationContents(aBatch([part(20), part(40), water(1000)], { kind: 'brew', outputGrams: 880, brew }))
  for (const measure of ['grams', 'water', 'coffeeSolids', 'caffeineLow', 'cost', 'energy'] as const) {
    near(split[measure].total, one[measure].total)
  }
})

test('a brew not weighed is computed by its retention, and says so', () => {
  const pot = aBatch([grounds(15), water(150)], { kind: 'brew', outputGrams: null, brew: aBrew({ retention: null }) })
  const all = preparationContents(pot)
  expect(all.grams.total).toBe(120)
  expect(all.grams.assumed.join()).toContain('retention')
})

test('where nobody knows the sugar, the refractometer speaks, and says what it takes for granted', () => {
  const dates = aLine({ name: 'Dates', composition: per100({ sugars: null, freeSugars: null, sweetness: null }) })
  const all = preparationContents(aBatch([dates, water(100)], { kind: 'mix', outputGrams: 120, brixMeasured: 50 }))
  expect(all.sugars.total).toBe(60)
  expect(all.sugars.assumed.join()).toContain('measured Brix')
  expect(brixOf(aBatch([sugar(50), water(50)])).total).toBe(50)
})
