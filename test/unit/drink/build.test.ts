import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import type { BuildLine, TrialBuild } from '@/lib/drink/trial'
import { aBatch, aBrew, aLine, aTrial, grounds, ice, sugar, water } from '../../support/drink-lines'

/** Twenty lines, each batch three preparations deep. */
function aLargeTrial(): TrialBuild {
  const deep = (n: number) => {
    const one = aBatch([sugar(500), water(500)], { outputGrams: 950 })
    const two = aBatch([aLine({ targetGrams: 400, preparation: one }), water(200)], { outputGrams: 580 })
    const three = aBatch([aLine({ targetGrams: 300, preparation: two }), sugar(20), water(30)], { outputGrams: 340 })
    return aLine({ key: `deep${n}`, name: `Syrup ${n}`, kind: 'sweetener', targetGrams: 10, preparation: three })
  }
  const lines = [...Array(18).keys()].map(deep)
  return aTrial([grounds(15), ...lines, ice(200)], {
    brew: aBrew(),
    vessel: { name: 'glass', brimMl: 473, fillMl: 440 },
  })
}

/** Every number anywhere in the figures. */
function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value]
  if (value === null || typeof value !== 'object') return []
  return Object.values(value).flatMap(numbersIn)
}

test('a trial twice as large is twice as heavy, sweet, strong in caffeine and dear, and no stronger in the glass', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.1, max: 10, noNaN: true }), (size) => {
      const trial = aLargeTrial()
      const larger = { ...trial, lines: trial.lines.map((line) => ({ ...line, targetGrams: line.targetGrams * size })) }
      const [a, b] = [computeBuild(trial), computeBuild(larger)]
      for (const pick of ['totalMass', 'volume', 'iceMelted', 'sugars', 'energy', 'caffeine'] as const) {
        const [one, two] = [a[pick], b[pick]]
        expect(one.known && two.known && Math.abs(two.value / one.value / size - 1)).toBeLessThan(1e-9)
      }
      const [one, two] = [a.solidsAfterMelt, b.solidsAfterMelt]
      expect(one.known && two.known && Math.abs(one.value - two.value)).toBeLessThan(1e-9)
    }),
    { numRuns: 20 },
  )
})

test('a density that no drink has is not reckoned with: the brew takes the room that water would', () => {
  const grams = { ...grounds(15), density: null }
  const wanted = computeBuild(aTrial([grams], { brew: aBrew() })).volume
  expect(wanted.known).toBe(true)
  for (const density of [-1, 0, Number.NaN]) {
    expect(computeBuild(aTrial([{ ...grams, density }], { brew: aBrew() })).volume).toEqual(wanted)
  }
})

test('whatever is missing or wrong, nothing throws and nothing is NaN or infinite', () => {
  const odd = fc.constantFrom(null, 0, -1, 1e-300, 1e300, 100, Number.NaN)
  const line: fc.Arbitrary<BuildLine> = fc
    .record({
      kind: fc.constantFrom('coffee', 'sweetener', 'milk', 'water', 'ice', 'other'),
      form: fc.constantFrom('liquid', 'powder', 'grounds', 'ice'),
      targetGrams: odd.map((n) => n ?? 100),
      weighedGrams: odd,
      temperature: odd,
      density: odd,
      costPerGram: odd,
      sugars: odd,
      caffeineHigh: odd,
      batch: fc.boolean(),
      output: odd,
      brixMeasured: odd,
    })
    .map(({ sugars, caffeineHigh, batch, output, brixMeasured, ...over }) => {
      const whole = aLine({
        ...over,
        composition: { ...(sugar(1).composition ?? ({} as never)), sugars, caffeineHigh },
      })
      const brew = aBrew({ ratio: output, strengthPercent: brixMeasured })
      const kind = brixMeasured === null ? 'brew' : 'syrup'
      return batch
        ? { ...whole, preparation: aBatch([whole, water(50)], { outputGrams: output, brixMeasured, kind, brew }) }
        : whole
    })
  const trial = fc.record({
    lines: fc.array(line, { maxLength: 5 }),
    t: odd,
    ratio: odd,
    k: odd,
    brim: odd,
    price: odd,
  })
  fc.assert(
    fc.property(trial, ({ lines, t, ratio, k, brim, price }) => {
      const figures = computeBuild(
        aTrial(lines, {
          brew: aBrew({ ratio, retention: k, extractionPercent: price }),
          coffeeTemperature: t,
          iceTemperature: k,
          room: { temperature: ratio, heatLeak: t },
          vessel: { name: 'g', brimMl: brim ?? 0, fillMl: price },
          money: {
            ...aTrial([]).money,
            menuPrice: price,
            taxFraction: k,
            wasteFraction: k,
            packagingCost: t,
            fixedCost: price,
            targetCostFraction: ratio,
          },
        }),
      )
      const { lines: shown, ...rest } = figures
      const counted = shown.map(({ offTarget: _typed, grams: _grams, ...each }) => each)
      expect([...numbersIn(rest), ...numbersIn(counted)].every(Number.isFinite)).toBe(true)
    }),
    { numRuns: 300 },
  )
})

test('every known figure opens to a formula, every unknown one to what is missing', () => {
  const look = (value: unknown): void => {
    if (value === null || typeof value !== 'object') return
    const one = value as { known?: boolean; formula?: string; missing?: string[] }
    if (one.known === true) expect(one.formula).toMatch(/\d/)
    else if (one.known === false) expect(one.missing?.length).toBeGreaterThan(0)
    else Object.values(value).forEach(look)
  }
  look(computeBuild(aLargeTrial()))
  look(computeBuild(aTrial([aLine({ composition: null, density: null, costPerGram: null })])))
})

test('an input is never changed', () => {
  const trial = aLargeTrial()
  const before = structuredClone(trial)
  computeBuild(trial)
  expect(trial).toEqual(before)
})
