import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { BuildLine, Preparation } from '@/lib/drink/trial'
import { batchFigures } from '@/lib/drink/batch-figures'
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

describe('infused and strained', () => {
  const zest = (over: Partial<Parameters<typeof aLine>[0]> = {}) =>
    aLine({
      name: 'Zest',
      targetGrams: 20,
      strainedOut: true,
      costPerGram: 0.05,
      allergens: { celery: 'contains' },
      ...over,
    })
  const infused = (outputGrams: number | null, more: Partial<Parameters<typeof aBatch>[1]> = {}, over = {}) =>
    aBatch([sugar(200), water(800), zest(over)], { name: 'Zest syrup', kind: 'infusion', outputGrams, ...more })

  test('the liquid less what the strained keeps back, its sugar in the same share', () => {
    const made = preparationContents(infused(950))
    // by hand: 950 of 1 000 g of liquid at a fifth of sugar; all that was bought is paid for
    expect(made.grams.total).toBeCloseTo(950, 9)
    expect(made.sugars.total).toBeCloseTo(190, 9)
    expect(made.cost.total).toBeCloseTo(200 * 0.0012 + 20 * 0.05, 9)
    expect(made.parts.map(({ name }) => name)).toContain('Zest')
    expect(made.sugars.assumed.join()).toContain('Zest, strained out of Zest syrup')
  })

  test('not weighed it goes by its retention; without one, or with too much of it, it is not known', () => {
    expect(preparationContents(infused(null, { retention: 2.5 })).grams.total).toBeCloseTo(950, 9)
    for (const retention of [null, 50, -1])
      expect(preparationContents(infused(null, { retention })).sugars.missing).not.toEqual([])
    expect(preparationContents(infused(1021)).grams.missing).toEqual([expect.stringContaining('not heavier')])
  })

  test('what dissolves from what is strained out is sugar only where a refractometer finds it', () => {
    const dates = { name: 'Dates', composition: per100({ sugars: 65, freeSugars: 65 }) }
    expect(preparationContents(infused(1000, {}, dates)).sugars.total).toBeCloseTo(200, 9)
    const read = preparationContents(infused(1000, { brixMeasured: 25 }, dates))
    // by hand: 25 % of 1 000 g, all of it counted as free
    expect([read.sugars.total, read.freeSugars.total]).toEqual([expect.closeTo(250, 9), expect.closeTo(250, 9)])
    // one that reads less does not make it less
    expect(preparationContents(infused(1000, { brixMeasured: 15 }, dates)).sugars.total).toBeCloseTo(200, 9)
  })

  test('its caffeine may have stayed in the leaves or gone over whole; unknown is not none', () => {
    const tea = { name: 'Tea', composition: per100({ caffeineLow: 2000, caffeineHigh: 3000 }) }
    const made = preparationContents(infused(950, {}, tea))
    // by hand: at most 20 g · 3 000 mg in 100 g, and 95 % of it is poured
    expect(made.caffeineLow.total).toBe(0)
    expect(made.caffeineHigh.total).toBeCloseTo(570, 9)
    const unknown = preparationContents(infused(950, {}, { composition: null }))
    expect(unknown.caffeineHigh.missing).toEqual(['caffeine of Zest'])
    expect(unknown.caffeineLow.missing).toEqual(['caffeine of Zest'])
  })

  test('mass and sugar are conserved: what came out and what was kept back are the liquid', () => {
    const some = fc.double({ min: 1, max: 3000, noNaN: true })
    fc.assert(
      fc.property(some, some, some, fc.double({ min: 0.05, max: 1, noNaN: true }), (s, w, d, part) => {
        const liquid = s + w
        const batch = aBatch([sugar(s), water(w), zest({ targetGrams: d })], {
          kind: 'infusion',
          outputGrams: liquid * part,
        })
        const made = preparationContents(batch)
        const figures = batchFigures(batch).infusion
        const kept = figures?.retention.known ? figures.retention.value * d : Number.NaN
        expect((made.grams.total + kept) / liquid).toBeCloseTo(1, 9)
        // what is kept back is as sweet as what came out
        expect((made.sugars.total + (kept * made.sugars.total) / made.grams.total) / s).toBeCloseTo(1, 9)
        const again = preparationContents({ ...batch, outputGrams: null, retention: kept / d })
        expect(again.sugars.total / made.sugars.total).toBeCloseTo(1, 9)
      }),
      // all of it came out: the sum of what went in is rounded
      { examples: [[1, 108.85770212143969, 216.70931634727714, 1]] },
    )
  })
})
