import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import { sizeOf, usualVessel, USUAL_SIZES, type Shares } from '@/lib/drink/sizes'
import { aBrew, aLine, aTrial, grounds, ice, sugar } from '../../support/drink-lines'

const milk = aLine({ name: 'Milk', kind: 'milk', targetGrams: 60, density: 1.03 })
const syrup = aLine({ name: 'Syrup', kind: 'sweetener', targetGrams: 25, density: 1.25 })
// 15 g at 1:10 give 120 g of coffee, 120 ml
const iced = aTrial([grounds(15), milk, syrup, ice(183.34)], {
  brew: aBrew(),
  vessel: { name: 'Tall', brimMl: 473.176473, fillMl: null },
})
const asOnSheet: Shares = { ice: null, coffee: null }
const volumeOf = (build: typeof iced) => {
  const { volume } = computeBuild(build)
  return volume.known ? volume.value : Number.NaN
}

test('the usual sizes are what NIST Handbook 44 says of the US fluid ounce', () => {
  // 12 · 29.5735295625, 16 · … and 22 · …, exact
  expect(USUAL_SIZES.map((ounces) => usualVessel(ounces).brimMl)).toEqual([354.88235475, 473.176473, 650.617650375])
})

test('with the shares of the sheet’s glass every line grows alike, and its own vessel is the identity', () => {
  const same = sizeOf(iced, iced.vessel ?? usualVessel(16), asOnSheet)
  expect(same.known && same.build.lines.map(({ targetGrams }) => targetGrams)).toEqual(
    iced.lines.map(({ targetGrams }) => expect.closeTo(targetGrams, 9)),
  )
  const larger = sizeOf(iced, usualVessel(22), asOnSheet)
  // 22/16 of everything
  expect(larger.known && larger.build.lines.map(({ targetGrams }) => targetGrams)).toEqual(
    iced.lines.map(({ targetGrams }) => expect.closeTo((targetGrams * 22) / 16, 9)),
  )
})

test('whatever the shares, the glass is as full as it was and ice and coffee are what was asked', () => {
  const share = fc.double({ min: 0.05, max: 0.45, noNaN: true })
  fc.assert(
    fc.property(share, share, fc.constantFrom(...USUAL_SIZES), (iceShare, coffee, ounces) => {
      const sized = sizeOf(iced, usualVessel(ounces), { ice: iceShare, coffee })
      if (!sized.known) throw new Error(sized.missing.join())
      expect(volumeOf(sized.build)).toBeCloseTo((volumeOf(iced) * ounces) / 16, 6)
      const iceLine = sized.build.lines.find(({ kind }) => kind === 'ice')
      expect((iceLine?.targetGrams ?? 0) / 0.9167 / sized.ml).toBeCloseTo(iceShare, 9)
      const dose = sized.build.lines.find(({ kind }) => kind === 'coffee')
      // 8 ml of coffee to the gram of dose
      expect(((dose?.targetGrams ?? 0) * 8) / sized.ml).toBeCloseTo(coffee, 9)
      const [before, after] = [iced, sized.build].map(({ lines }) =>
        lines.filter(({ kind }) => kind === 'milk' || kind === 'sweetener'),
      )
      const ratio = (lines = before) => (lines?.[0]?.targetGrams ?? 0) / (lines?.[1]?.targetGrams ?? 1)
      expect(ratio(after)).toBeCloseTo(ratio(before), 9)
    }),
  )
})

test('by hand: half of 400 ml is ice, a fifth coffee, the rest in its own proportion', () => {
  const vessel = { name: 'Short', brimMl: 450, fillMl: 400 }
  const sized = sizeOf(iced, vessel, { ice: 0.5, coffee: 0.2 })
  // ice 200 ml · 0.9167; coffee 80 ml of 8 ml/g; 120 ml of milk and syrup that were 58.252 + 20 ml
  const rest = 120 / (60 / 1.03 + 20)
  expect(sized.known && sized.build.lines.map(({ targetGrams }) => targetGrams)).toEqual([
    expect.closeTo(10, 9),
    expect.closeTo(60 * rest, 9),
    expect.closeTo(25 * rest, 9),
    expect.closeTo(183.34, 9),
  ])
})

test('what is not there cannot be held to a share, what is not known is asked for, and too much is refused', () => {
  const hot = aTrial([grounds(15), milk], { brew: aBrew() })
  expect(sizeOf(hot, usualVessel(12), { ice: 0.3, coffee: null })).toEqual({
    known: false,
    missing: ['ice on the sheet'],
  })
  expect(sizeOf(hot, usualVessel(12), { ice: 0, coffee: null })).toMatchObject({ known: true })
  expect(sizeOf(iced, usualVessel(12), { ice: 0.7, coffee: 0.6 })).toMatchObject({ known: false })
  const unweighed = aTrial([aLine({ name: 'Cream', density: null }), ice(100)])
  expect(sizeOf(unweighed, usualVessel(12), asOnSheet)).toEqual({ known: false, missing: ['density of Cream'] })
  expect(() => sizeOf(iced, { name: 'None', brimMl: 0, fillMl: null }, asOnSheet)).toThrow('got 0')
  expect(() => sizeOf(iced, usualVessel(12), { ice: 1.2, coffee: 0 })).toThrow('got 1.2')
  expect(() => usualVessel(0)).toThrow('got 0')
})

test('none of a share leaves its lines out, and a glass whose vessel nobody knows is filled to nine tenths', () => {
  const open = { ...iced, vessel: null }
  const sized = sizeOf(open, usualVessel(16), { ice: 0, coffee: null })
  expect(sized.known && sized.build.lines.map(({ kind }) => kind)).toEqual(['coffee', 'milk', 'sweetener'])
  expect(sized.known && sized.ml).toBeCloseTo(0.9 * 473.176473, 9)
  expect(sizeOf(aTrial([sugar(10)]), usualVessel(12), asOnSheet)).toMatchObject({ known: true })
})
