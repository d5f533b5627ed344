import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import { makeMany } from '@/lib/drink/make-many'
import type { Made } from '@/lib/drink/make-many'
import { aBatch, aBrew, aLine, aTrial, grounds, sugar, water } from '../../support/drink-lines'

const infusion = aBatch([aLine({ name: 'Cardamom pods', targetGrams: 8 }), water(92)], {
  name: 'Infusion',
  kind: 'mix',
  outputGrams: 85,
})
const syrup = aBatch([sugar(600), water(450), aLine({ name: 'Infusion', targetGrams: 50, preparation: infusion })], {
  name: 'Cardamom syrup',
  outputGrams: 1000,
})
const syrupLine = (grams: number) =>
  aLine({ key: 'syrup', name: 'Cardamom syrup', kind: 'sweetener', targetGrams: grams, preparation: syrup })

function made(of: ReturnType<typeof makeMany>): Made {
  if (!of.known) throw new Error(`not known: ${JSON.stringify(of.missing)}`)
  return of
}

test('ten glasses with a spare tenth, by hand', () => {
  const trial = aTrial([grounds(15), syrupLine(20), water(30)], { brew: aBrew() })
  // by hand: 15, 20 and 30 g · 10 · 1.1; 220 g of 1 000 g of syrup; 11 g of 85 g of infusion
  const { lines, preparations, shopping } = made(makeMany(trial, 10, 0.1))
  const near = (name: string, grams: number) => ({ name, grams: expect.closeTo(grams, 9) })
  expect(lines.map(({ name, grams }) => ({ name, grams }))).toEqual([
    near('Roast coffee', 165),
    near('Cardamom syrup', 220),
    near('Water', 330),
  ])
  expect(preparations).toEqual([
    { ...near('Infusion', 11), inputs: [near('Cardamom pods', (8 * 11) / 85), near('Water', (92 * 11) / 85)] },
    { ...near('Cardamom syrup', 220), inputs: [near('White sugar', 132), near('Water', 99), near('Infusion', 11)] },
  ])
  expect(shopping).toEqual([
    near('Roast coffee', 165),
    near('Water', 330 + 99 + (92 * 11) / 85),
    near('Cardamom pods', (8 * 11) / 85),
    near('White sugar', 132),
  ])
})

test('a preparation that is poured by itself and inside another is made once, for both, before the other', () => {
  const own = aLine({ key: 'own', name: 'Infusion', targetGrams: 10, preparation: infusion })
  const { preparations } = made(makeMany(aTrial([own, syrupLine(20)]), 2, 0))
  // by hand: 2 · 10 g beside 2 · 20 g · 50/1 000
  expect(preparations.map(({ name, grams }) => [name, grams])).toEqual([
    ['Infusion', expect.closeTo(22, 9)],
    ['Cardamom syrup', expect.closeTo(40, 9)],
  ])
})

test('the targets are made, not what one glass happened to weigh; inputs of a batch as they were weighed', () => {
  const weighed = aBatch([sugar(500, { weighedGrams: 510 }), water(500)], { name: 'Syrup', outputGrams: 1000 })
  const line = aLine({ name: 'Syrup', targetGrams: 100, weighedGrams: 130, preparation: weighed })
  const { lines, preparations } = made(makeMany(aTrial([line]), 1, 0))
  expect(lines[0]?.grams).toBe(100)
  expect(preparations[0]?.inputs.map(({ grams }) => grams)).toEqual([51, 50])
})

test('what is bought holds all that reaches the glass: mass and sugar are conserved through the preparations', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 500 }),
      fc.double({ min: 1, max: 200, noNaN: true }),
      fc.double({ min: 1, max: 500, noNaN: true }),
      (glasses, dose, water1) => {
        // nothing boils off here, so that the mass of the inputs is the mass of the batch
        const plain = aBatch([sugar(dose), water(water1)], { name: 'Plain' })
        const mix = aBatch([aLine({ name: 'Plain', targetGrams: 70, preparation: plain }), water(30)], { kind: 'mix' })
        const trial = aTrial([aLine({ name: 'Mix', targetGrams: 50, preparation: mix }), sugar(5), water(20)])
        const { shopping } = made(makeMany(trial, glasses, 0.25))
        const { sugars, totalMass } = computeBuild(trial)
        const bought = shopping.reduce((all, { grams }) => all + grams, 0)
        const sweet = shopping.find(({ name }) => name === 'White sugar')?.grams ?? 0
        for (const [got, figure] of [[bought, totalMass] as const, [sweet, sugars] as const]) {
          const wanted = (figure.known ? figure.value : 0) * glasses * 1.25
          expect(Math.abs(got / wanted - 1)).toBeLessThan(1e-9)
        }
      },
    ),
  )
})

test('many glasses shared out again are the one glass they were made from', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 10_000 }), fc.double({ min: 0, max: 1, noNaN: true }), (glasses, spare) => {
      const trial = aTrial([grounds(15), syrupLine(20)], { brew: aBrew() })
      for (const [k, { grams }] of made(makeMany(trial, glasses, spare)).lines.entries()) {
        const back = grams / (glasses * (1 + spare))
        expect(Math.abs(back - (trial.lines[k]?.targetGrams ?? 0))).toBeLessThan(1e-9)
      }
    }),
  )
})

test('a batch nobody weighed, and an amount that is none, are asked for instead of a list that lacks them', () => {
  const unweighed = aBatch([sugar(500), water(500)], { name: 'Date syrup', outputGrams: null })
  const line = aLine({ name: 'Date syrup', targetGrams: 20, preparation: unweighed })
  const none = makeMany(aTrial([line, aLine({ name: 'Milk', targetGrams: 0 })]), 5, 0)
  expect(none.known).toBe(false)
  const asked = JSON.stringify(none)
  expect(asked).toContain('Date syrup')
  expect(asked).toContain('Milk')
})

test('half a glass, none, too many, and a spare that is no share are refused', () => {
  const trial = aTrial([water(30)])
  for (const glasses of [0, 0.5, 10_001]) expect(() => makeMany(trial, glasses, 0)).toThrow(`got ${glasses}`)
  for (const spare of [-0.1, 15]) expect(() => makeMany(trial, 1, spare)).toThrow(`got ${spare}`)
})

test('what is on the shelf is taken off, and so is what would have gone into it', () => {
  const trial = aTrial([syrupLine(20)])
  const near = (name: string, grams: number) => ({ name, grams: expect.closeTo(grams, 9) })
  // by hand: 220 g of syrup less 100 g there are 120 g to make, with 72 g of sugar, 54 g of water and 6 g of infusion
  const some = made(makeMany(trial, 10, 0.1, new Map([['Cardamom syrup', 100]])))
  expect(some.preparations.map(({ name, grams }) => ({ name, grams }))).toEqual([
    near('Infusion', 6),
    near('Cardamom syrup', 120),
  ])
  expect(some.shopping).toContainEqual(near('White sugar', 72))
  // what is there in full is made no more, and nothing is bought for it
  const all = made(makeMany(trial, 10, 0.1, new Map([['Cardamom syrup', 220]])))
  expect([all.preparations, all.shopping]).toEqual([[], []])
  // the inner one alone: 11 g less 10 g
  const inner = made(makeMany(trial, 10, 0.1, new Map([['Infusion', 10]])))
  expect(inner.preparations[0]).toMatchObject(near('Infusion', 1))
  expect(inner.preparations[1]).toMatchObject(near('Cardamom syrup', 220))
})

test('a batch that is there in full need never have been weighed out', () => {
  const unweighed = aLine({ name: 'Syrup', targetGrams: 20, preparation: aBatch([sugar(100)], { outputGrams: null }) })
  expect(makeMany(aTrial([unweighed]), 10, 0).known).toBe(false)
  expect(makeMany(aTrial([unweighed]), 10, 0, new Map([['Syrup', 200]])).known).toBe(true)
})
