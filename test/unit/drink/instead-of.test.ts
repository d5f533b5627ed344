import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { contentsOfLine } from '@/lib/drink/preparation'
import {
  COMPARED,
  insteadOf,
  makeupOf,
  TOLERANCE,
  weighedIn,
  type Candidate,
  type Makeup,
} from '@/lib/drink/instead-of'
import { aLine } from '../../support/drink-lines'

const makeup = (fat: number | null, sugars: number | null, solids: number | null, protein: number | null): Makeup => ({
  fat,
  sugars,
  solids,
  protein,
})
const wish = { water: true } as const
const amount = (most: number) => fc.double({ min: 0, max: most, noNaN: true })
const anything = fc.tuple(amount(40), amount(50), amount(100), amount(30)).map((row) => makeup(...row))
const shelf = fc
  .array(anything, { minLength: 1, maxLength: 6 })
  .map((rows) => rows.map((one, place): Candidate => ({ id: `thing ${place}`, makeup: one })))
const ids = (one: { readonly parts: readonly { readonly id: string }[] }) => one.parts.map(({ id }) => id)

test('no part is negative, and all shares with the water are the mass that is replaced', () => {
  fc.assert(
    fc.property(anything, shelf, fc.boolean(), (target, candidates, water) => {
      for (const one of insteadOf(target, candidates, { water }).standIns) {
        expect(one.parts.every(({ share }) => share > 0)).toBe(true)
        expect(one.water).toBeGreaterThanOrEqual(0)
        if (!water) expect(one.water).toBe(0)
        expect(one.parts.reduce((all, { share }) => all + share, one.water)).toBeCloseTo(1, 9)
        expect(one.parts.length).toBeLessThanOrEqual(3)
      }
    }),
  )
})

test('every single thing is offered, and a blend is worth more than any of its parts by a quarter of a tolerance', () => {
  fc.assert(
    fc.property(anything, shelf, (target, candidates) => {
      const { standIns } = insteadOf(target, candidates, wish)
      const single = new Map(standIns.flatMap((one) => (one.parts.length === 1 ? [[ids(one)[0], one.misfit]] : [])))
      expect([...single.keys()].toSorted()).toEqual(candidates.map(({ id }) => id).toSorted())
      for (const one of standIns.filter(({ parts }) => parts.length > 1))
        for (const id of ids(one)) expect(one.misfit).toBeLessThan((single.get(id) ?? 0) - 0.25)
      expect(standIns.map(({ misfit }) => misfit)).toEqual(
        standIns.map(({ misfit }) => misfit).toSorted((a, b) => a - b),
      )
    }),
  )
})

test('a blend that was planted is found, its water too', () => {
  const share = fc.double({ min: 0.1, max: 1, noNaN: true })
  const shares = fc.tuple(share, share, share).map((three) => three.map((x) => x / three.reduce((a, b) => a + b, 0)))
  const of = (low: number, high: number) =>
    fc
      .tuple(fc.double({ min: low, max: high, noNaN: true }), amount(50), amount(100), amount(30))
      .map((row) => makeup(...row))
  fc.assert(
    fc.property(fc.tuple(of(6, 18), of(24, 40)), shares, (makeups, [x = 0, y = 0]) => {
      const [a, b] = makeups
      const mixed = (figure: keyof Makeup) => x * (a[figure] ?? 0) + y * (b[figure] ?? 0)
      const target = makeup(mixed('fat'), mixed('sugars'), mixed('solids'), mixed('protein'))
      const candidates = makeups.map((one, i) => ({ id: `thing ${i}`, makeup: one }))
      const [best] = insteadOf(target, candidates, { water: true, gain: 0 }).standIns
      expect(best?.misfit).toBeLessThan(1e-6)
      const found = ['thing 0', 'thing 1'].map((id) => best?.parts.find((part) => part.id === id)?.share ?? 0)
      const remade = (figure: keyof Makeup) => (found[0] ?? 0) * (a[figure] ?? 0) + (found[1] ?? 0) * (b[figure] ?? 0)
      for (const figure of COMPARED) expect(Math.abs(remade(figure) - mixed(figure))).toBeLessThan(1e-6)
    }),
  )
})

test('differences are g per 100 g of the stand-in less what it stands for, each error by its tolerance', () => {
  const target = makeup(3, 5, 12, 3)
  const [best] = insteadOf(target, [{ id: 'oat', makeup: makeup(2.5, 4, 11, 1) }], { water: false }).standIns
  // by hand: 0.5/0.5, 1/0.5, 1/1 and 2/0.5
  expect(best).toMatchObject({ differences: makeup(-0.5, -1, -1, -2), notCompared: [], water: 0 })
  expect(best?.misfit).toBeCloseTo(Math.sqrt(1 + 4 + 1 + 16), 12)
  expect(TOLERANCE).toEqual({ fat: 0.5, sugars: 0.5, solids: 1, protein: 0.5 })
})

test('what is not known is named, never zero, and stands behind what compares more', () => {
  const { standIns, unlike } = insteadOf(
    makeup(3, 5, 12, null),
    [
      { id: 'whole label', makeup: makeup(9, 9, 20, 3) },
      { id: 'short label', makeup: makeup(3, 5, null, null) },
      { id: 'no label', makeup: makeup(null, null, null, 3) },
    ],
    wish,
  )
  const short = standIns.find((one) => ids(one).join() === 'short label')
  expect(short).toMatchObject({
    misfit: 0,
    differences: { solids: null, protein: null },
    notCompared: [
      { figure: 'solids', target: false, parts: ['short label'] },
      { figure: 'protein', target: true, parts: ['short label'] },
    ],
  })
  expect(ids(standIns[0] ?? { parts: [] })).toEqual(['whole label'])
  expect(unlike).toEqual(['no label'])
})

test('water is weighed in only where it is worth it', () => {
  const thick = { id: 'thick', makeup: makeup(8, 10, 26, 7) }
  // by hand: half of each figure, and half water
  expect(insteadOf(makeup(4, 5, 13, 3.5), [thick], wish).standIns).toMatchObject([
    { parts: [{ share: expect.closeTo(0.5, 9) }], water: expect.closeTo(0.5, 9) },
  ])
  expect(insteadOf(makeup(7.99, 9.99, 25.97, 6.99), [thick], wish).standIns).toMatchObject([{ water: 0 }])
})

test('a thin thing is never given in a greater mass than what it replaces', () => {
  const thin = { id: 'thin', makeup: makeup(4, 5, 13, 3.5) }
  expect(insteadOf(makeup(8, 10, 26, 7), [thin], wish).standIns).toMatchObject([{ parts: [{ share: 1 }], water: 0 }])
})

test('a long shelf is blended by fewer, and says so', () => {
  const long = (many: number): Candidate[] =>
    Array.from({ length: many }, (_, i) => ({ id: `${i}`, makeup: makeup(i / 10, 5, 12, 3) }))
  const upTo = (many: number) => insteadOf(makeup(3, 5, 12, 3), long(many), { water: false }).blendedUpTo
  expect([24, 25, 151].map(upTo)).toEqual([3, 2, 1])
})

test('the makeup of what is poured: solids are what is not water', () => {
  const composition = { water: 88, sugars: 5, fat: 3, protein: null, freeSugars: 0, energyKcal: 60 }
  const line = aLine({
    kind: 'milk',
    targetGrams: 40,
    composition: { ...composition, coffeeSolids: 0, caffeineLow: 0, caffeineHigh: 0, sweetness: 1 },
  })
  const found = makeupOf(contentsOfLine(line, null))
  expect(found).toEqual({
    fat: expect.closeTo(3, 9),
    sugars: expect.closeTo(5, 9),
    solids: expect.closeTo(12, 9),
    protein: null,
  })
})

test('what is weighed in is the mass that is replaced, to a tenth of a gram, of small doses to a hundredth', () => {
  const blend = { parts: [{ id: 'milk', share: 0.7654 }, { id: 'cream', share: 0.1346 }], water: 0.1 } // prettier-ignore
  // by hand: 63.93 · 0.1346 = 8.605, and · 0.1 = 6.393; 48.93 are left
  expect(weighedIn(blend, 63.93)).toEqual([
    { id: 'milk', grams: 48.93 },
    { id: 'cream', grams: 8.6 },
    { id: null, grams: 6.4 },
  ])
  expect(weighedIn({ parts: blend.parts, water: 0 }, 2)?.[1]).toEqual({ id: 'cream', grams: 0.27 })
})

test('what is too little for the scale is not weighed in', () => {
  expect(weighedIn({ parts: [{ id: 'milk', share: 0.9999 }], water: 0.0001 }, 60)).toBeNull()
})
