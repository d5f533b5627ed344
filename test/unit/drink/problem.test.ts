import { expect, test } from 'vitest'
import type { BuildLine, TrialBuild } from '@/lib/drink/trial'
import { problemsOfBuild, problemsOfPreparation } from '@/lib/drink/problem'
import { aBatch, aBrew, aLine, aTrial, grounds, ice, per100, sugar, water } from '../../support/drink-lines'

const fields = (lines: BuildLine[], over: Partial<TrialBuild> = {}) =>
  problemsOfBuild(aTrial(lines, over)).map(({ field }) => field)
const batch = (over: Parameters<typeof aBatch>[1], inputs = [sugar(100), water(100)]) =>
  aLine({ key: 'b', preparation: aBatch(inputs, over) })

test('a sound trial has no problem', () => {
  expect(fields([grounds(15), batch({ outputGrams: 190 })], { brew: aBrew() })).toEqual([])
})

test.each([
  ['no line at all', [], {}, 'lines'],
  ['an amount of zero', [aLine({ key: 'a', targetGrams: 0 })], {}, 'lines.a.targetGrams'],
  ['a negative weight', [aLine({ key: 'a', weighedGrams: -1 })], {}, 'lines.a.weighedGrams'],
  ['an amount that is no number', [aLine({ key: 'a', targetGrams: Number.NaN })], {}, 'lines.a.targetGrams'],
  [
    'a volume without a density',
    [aLine({ key: 'a', typed: { amount: 2, unit: 'us-fl-oz', density: null } })],
    {},
    'lines.a.typed.density',
  ],
  [
    'a unit we do not know',
    [aLine({ key: 'a', typed: { amount: 2, unit: 'oz', density: null } })],
    {},
    'lines.a.typed.unit',
  ],
  ...[0.05, 2500, Number.NaN].flatMap((density): [string, BuildLine[], Partial<TrialBuild>, string][] => [
    [
      `${density} g/ml typed`,
      [aLine({ key: 'a', typed: { amount: 2, unit: 'g', density } })],
      {},
      'lines.a.typed.density',
    ],
    [`a powder of ${density} g/ml`, [sugar(5, { key: 'a', density })], {}, 'lines.a.density'],
    [
      `a batch of ${density} g/ml`,
      [batch({ densityMeasured: density, outputGrams: null })],
      {},
      'lines.b.preparation.densityMeasured',
    ],
  ]),
  ['a liquid too light', [aLine({ key: 'a', density: 0.5 })], {}, 'lines.a.density'],
  ['a negative price', [aLine({ key: 'a', costPerGram: -1 })], {}, 'lines.a.costPerGram'],
  ['a ratio not above the retention', [grounds(15)], { brew: aBrew({ ratio: 2 }) }, 'brew.ratio'],
  ['a ratio of zero', [grounds(15)], { brew: aBrew({ ratio: 0 }) }, 'brew.ratio'],
  ['a ratio without its kind', [grounds(15)], { brew: aBrew({ ratioKind: null }) }, 'brew.ratioKind'],
  ['a strength over 100 %', [grounds(15)], { brew: aBrew({ strengthPercent: 120 }) }, 'brew.strengthPercent'],
  ['an output heavier than its inputs', [batch({ outputGrams: 201 })], {}, 'lines.b.preparation.outputGrams'],
  ['an output of zero', [batch({ outputGrams: 0 })], {}, 'lines.b.preparation.outputGrams'],
  ['an output lighter than its sugar', [batch({ outputGrams: 90 })], {}, 'lines.b.preparation.outputGrams'],
  ['Brix over 100', [batch({ brixMeasured: 101 })], {}, 'lines.b.preparation.brixMeasured'],
  ['Brix that the weights deny', [batch({ brixMeasured: 60 })], {}, 'lines.b.preparation.brixMeasured'],
  ['a density that the Brix denies', [batch({ densityMeasured: 1.3 })], {}, 'lines.b.preparation.densityMeasured'],
  ['a preparation of nothing', [batch({ outputGrams: 1 }, [])], {}, 'lines.b.preparation.inputs'],
  ['a vessel of nothing', [aLine()], { vessel: { name: 'g', brimMl: 0, fillMl: null } }, 'vessel.brimMl'],
  ['a fill line above the brim', [aLine()], { vessel: { name: 'g', brimMl: 400, fillMl: 401 } }, 'vessel.fillMl'],
  ['warm ice', [aLine()], { iceTemperature: 1 }, 'iceTemperature'],
  ['coffee over the boil', [aLine()], { coffeeTemperature: 120 }, 'coffeeTemperature'],
] satisfies [string, BuildLine[], Partial<TrialBuild>, string][])(
  '%s is named beside its field',
  (_what, lines, over, field) => {
    expect(fields(lines, over)).toContain(field)
  },
)

test('money that cannot be is named field by field', () => {
  const money = {
    ...aTrial([]).money,
    wasteFraction: 2,
    taxFraction: -1,
    targetCostFraction: 0,
    menuPrice: -1,
    packagingCost: -1,
    fixedCost: -1,
  }
  expect(fields([aLine()], { money }).sort()).toEqual(
    ['fixedCost', 'menuPrice', 'packagingCost', 'targetCostFraction', 'taxFraction', 'wasteFraction'].map(
      (f) => `money.${f}`,
    ),
  )
})

test('measured values that disagree are doubts, impossible ones are not', () => {
  const doubts = problemsOfBuild(aTrial([batch({ brixMeasured: 60 })])).map(({ doubt }) => doubt)
  expect(doubts).toEqual([true])
  expect(problemsOfBuild(aTrial([batch({ outputGrams: 201 })])).map(({ doubt }) => doubt)).toEqual([false])
})

test('a loop is refused with its path, not followed', () => {
  const inputs: BuildLine[] = [water(10)]
  const inner = aBatch(inputs, { name: 'Inner', outputGrams: 10 })
  const outer = aBatch([aLine({ targetGrams: 5, preparation: inner })], { name: 'Outer', outputGrams: 5 })
  inputs.push(aLine({ targetGrams: 5, preparation: outer }))
  const [problem] = problemsOfBuild(aTrial([aLine({ preparation: outer })])).filter(({ message }) =>
    message.includes('itself'),
  )
  expect(problem?.message).toBe('Outer contains itself: Outer → Inner → Outer.')
})

test('the field of a problem deep in a tree leads to it', () => {
  const inner = aBatch([sugar(0, { key: 's' })], { outputGrams: 1 })
  const outer = aBatch([aLine({ key: 'i', preparation: inner })])
  expect(fields([aLine({ key: 'o', preparation: outer })])).toContain(
    'lines.o.preparation.inputs.i.preparation.inputs.s.targetGrams',
  )
})

test('a liquid typed at a density that no drink has is doubted, not refused; a volume nobody can weigh is asked for once', () => {
  const typed = (density: number | null) =>
    problemsOfBuild(aTrial([aLine({ key: 'a', targetGrams: 1, typed: { amount: 1, unit: 'ml', density } })]))
  expect(typed(1.6)).toMatchObject([{ field: 'lines.a.typed.density', doubt: true }])
  expect(typed(1.031)).toEqual([])
  const asked = aLine({ key: 'a', targetGrams: Number.NaN, typed: { amount: 1, unit: 'ml', density: null } })
  expect(problemsOfBuild(aTrial([asked])).map(({ field }) => field)).toEqual(['lines.a.typed.density'])
})

const energy = (energyKcal: number, over = {}) =>
  problemsOfBuild(aTrial([aLine({ key: 'a', composition: per100({ energyKcal, ...over }) })]))

test('a density that nobody measured is a doubt, until one is typed on the line', () => {
  const oat = { key: 'a', density: 1.02, densityIsAssumed: true }
  const typed = { amount: 100, unit: 'ml', density: 1.02 }
  const doubts = (line: BuildLine) => problemsOfBuild(aTrial([line])).map(({ field, doubt }) => `${field} ${doubt}`)
  expect(doubts(aLine(oat))).toEqual(['lines.a.density true'])
  expect(doubts(aLine({ ...oat, typed }))).toEqual(['lines.a.density true'])
  expect(doubts(aLine({ ...oat, typed: { ...typed, density: 1.031 } }))).toEqual([])
  expect(doubts(aLine({ ...oat, densityIsAssumed: false }))).toEqual([])
})

test('energy above that of pure fat is refused, kilojoules most likely; far below its own nutrients it is asked about', () => {
  // USDA SR 171401, lard: 902 kcal in 100 g; EU 1169/2011, Annex XIV: 9 kcal per g of fat, 4 of protein and of sugars
  expect(energy(1900)).toMatchObject([{ field: 'lines.a.composition.energyKcal', doubt: false }])
  expect(energy(902, { fat: 100 })).toEqual([])
  expect(energy(0, { fat: 90 })).toMatchObject([{ field: 'lines.a.composition.energyKcal', doubt: true }])
  // evaporated milk, USDA SR 171271 as in the example file: 134 kcal of 7.56 g fat, 6.81 g protein, 10.04 g sugars
  expect(energy(134, { fat: 7.56, protein: 6.81, sugars: 10.04 })).toEqual([])
})

test('kilojoules in the place of kilocalories are asked about where the label’s own nutrients tell', () => {
  const ask = [{ field: 'lines.a.composition.energyKcal', doubt: true }]
  // 4.184 kJ in a kcal (EU 1169/2011, Annex I). USDA, as ../shared/trade.md has them: whole milk 61 kcal, rice drink 47 kcal
  const milk = { water: null, fat: 3.25, protein: 3.15, sugars: 4.8 }
  const rice = { water: 89.28, fat: 0.97, protein: 0.28, sugars: 5.28 }
  expect(energy(61, milk)).toEqual([])
  expect(energy(255, milk)).toMatchObject(ask)
  expect(energy(47, rice)).toEqual([])
  expect(energy(197, rice)).toMatchObject(ask)
  // what is neither water, fat nor sugars may be starch (instant powder, 353 kcal) or alcohol: neither is asked about
  expect(energy(353, { water: 3.1, fat: 0.5, protein: 12.2, sugars: 0 })).toEqual([])
})

test('a strength that would take more out of the coffee than there is, is refused; more than water can draw is asked about', () => {
  const of = (strengthPercent: number) => problemsOfBuild(aTrial([grounds(15)], { brew: aBrew({ strengthPercent }) }))
  // by hand, immersion of 15 g in 150 g: t·W/((1 − t)·D) is 21 % at 2.06 %, 40.9 % at 3.93 %, 429 % at 30 %
  expect(of(2.06)).toEqual([])
  expect(of(3.93)).toMatchObject([{ field: 'brew.strengthPercent', doubt: true }])
  expect(of(30)).toMatchObject([{ field: 'brew.strengthPercent', doubt: false }])
  const bottled = batch(
    { kind: 'brew', outputGrams: 120, brew: aBrew({ strengthPercent: 30, ratio: null, ratioKind: null }) },
    [grounds(15), water(150)],
  )
  expect(fields([bottled])).toEqual(['lines.b.preparation.brew.strengthPercent'])
})

test.each([
  ['iceTemperature', { iceTemperature: -400 }, aLine({ key: 'a' })],
  ['lines.a.temperature', {}, water(100, { key: 'a', temperature: -50 })],
  ['lines.a.temperature', {}, aLine({ key: 'a', temperature: 400 })],
  ['lines.a.temperature', {}, ice(100, { key: 'a', temperature: -400 })],
  ['lines.a.temperature', {}, ice(100, { key: 'a', temperature: 5 })],
] as const)('%s beyond nature is refused (%#)', (field, over, line) => {
  expect(fields([line], over)).toEqual([field])
})

test('ice from a freezer and a syrup that boils are poured at their temperature', () => {
  expect(fields([ice(100, { temperature: -18 }), aLine({ temperature: 104 })], { iceTemperature: -18 })).toEqual([])
})

test('a batch whose refractometer and scale disagree is asked about on its own page, and so is what stands in it', () => {
  // 100 g of sugar in 198.4 g is 50.4 °Bx by weight
  const off = aBatch([sugar(100), water(100)], { outputGrams: 198.4, brixMeasured: 60 })
  expect(problemsOfPreparation(off)).toMatchObject([{ field: 'brixMeasured', doubt: true }])
  expect(problemsOfPreparation(off)[0]?.message).toContain('reads 60 Brix, but its weights say 50.4')
  const around = aBatch([aLine({ preparation: off, targetGrams: 50 }), water(50)], { kind: 'mix' })
  expect(problemsOfPreparation(around).map(({ field }) => field)).toContain('brixMeasured')
  expect(problemsOfPreparation(aBatch([sugar(100), water(100)], { outputGrams: 198.4, brixMeasured: 50.4 }))).toEqual(
    [],
  )
})

test('what an ingredient is called is no reason: a syrup of unknown water is not said to weigh too little', () => {
  const named = aLine({
    name: 'Paste that must not boil off',
    composition: per100({ water: null, sugars: 60, energyKcal: 240 }),
  })
  const batch = aBatch([named, water(100)], { kind: 'syrup', outputGrams: 180 })
  expect(problemsOfPreparation(batch).map(({ field }) => field)).not.toContain('outputGrams')
})

test('a syrup lighter than the sugar that went into it was not weighed whole', () => {
  // balance of mass: 100 g of sugar do not leave as steam
  const batch = aBatch([sugar(100), water(100)], { kind: 'syrup', outputGrams: 95 })
  expect(problemsOfPreparation(batch).map(({ field }) => field)).toContain('outputGrams')
})
