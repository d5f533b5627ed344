import { expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import { cautionsTogether, LOCAL_RULES, makingCautions } from '@/lib/drink/caution'
import type { BuildLine } from '@/lib/drink/trial'
import { aBatch, aBrew, aLine, aTrial, grounds, ice, per100, sugar, water } from '../../support/drink-lines'

const said = (lines: BuildLine[]) => computeBuild(aTrial(lines, { brew: aBrew() })).cautions.join('\n')

test('whatever is in the glass, the last words are the local rules', () => {
  expect(computeBuild(aTrial([water(10)])).cautions.at(-1)).toBe(LOCAL_RULES)
  expect(computeBuild(aTrial([])).cautions).toEqual([])
})

test('an unread label deep in a preparation blocks every "free from"', () => {
  const batch = aBatch([sugar(50, { name: 'Caramel', labelRead: false }), water(50)])
  expect(said([aLine({ preparation: batch })])).toContain('Labels not read: Caramel')
})

test('caffeine over one dose is warned of, and unknown caffeine is not cleared', () => {
  expect(said([grounds(30)])).toContain('over 200 mg caffeine')
  expect(said([grounds(10)])).not.toContain('mg caffeine')
  expect(said([grounds(10, { composition: null })])).toContain('Caffeine is not known')
})

test('a part whose caffeine nobody states hides nothing of the rest: what is known stands, and warns', () => {
  const vanilla = aLine({ name: 'Vanilla extract', composition: null })
  // 30 g at 1 200 mg per 100 g, 0.95 released, and 30 % more: 445 mg in all, 240 of 300 g of it served (by hand)
  const { caffeine, cautions } = computeBuild(aTrial([grounds(30), vanilla], { brew: aBrew() }))
  expect(caffeine).toMatchObject({ known: false, missing: ['caffeine of Vanilla extract'] })
  const high = (30 * 12 * 0.95 * 1.3 * 240) / 300
  expect(caffeine).toMatchObject({ atLeast: { high: expect.closeTo(high, 6), of: ['Roast coffee'] } })
  expect(cautions.join(' ')).toContain('Caffeine is not known')
  expect(cautions.join(' ')).toContain('over 200 mg caffeine')
  expect(computeBuild(aTrial([vanilla])).caffeine).not.toHaveProperty('atLeast')
})

test('what a batch holds of caffeine beside a part that states none warns as well', () => {
  const drops = aLine({ name: 'Bitter drops', targetGrams: 100, composition: null })
  const strong = aLine({
    name: 'Cold brew',
    targetGrams: 100,
    composition: per100({ caffeineLow: 400, caffeineHigh: 500 }),
  })
  const mix = aBatch([strong, drops], { kind: 'mix', name: 'House shot', outputGrams: 200 })
  const { caffeine, cautions } = computeBuild(aTrial([aLine({ name: 'House shot', preparation: mix })]))
  // 100 g of 200 g: half of 400 to 500 mg (by hand)
  const atLeast = { low: expect.closeTo(200, 6), high: expect.closeTo(250, 6), of: ['House shot'] }
  expect(caffeine).toMatchObject({ known: false, missing: ['caffeine of Bitter drops'], atLeast })
  expect(cautions.join(' ')).toContain('over 200 mg caffeine')
})

test('free sugars that are not known are not cleared, and what is known of them warns', () => {
  const vanilla = aLine({ name: 'Vanilla extract', composition: null })
  expect(said([vanilla])).toContain('Free sugars are not known')
  expect(said([vanilla])).not.toContain('More than')
  expect(said([vanilla, sugar(51)])).toMatch(/More than 50 g of free sugars[\s\S]*Free sugars are not known/)
  expect(said([sugar(20)])).not.toContain('ree sugars')
})

test('what is poured hot burns; a cold drink of a syrup cooked days before says nothing of it', () => {
  expect(said([aLine({ temperature: 54 })])).toContain('it burns')
  expect(said([aLine({ temperature: 53 })])).not.toContain('it burns')
  expect(said([grounds(15, { temperature: null })])).toContain('it burns')
  expect(said([grounds(15, { temperature: 22 })])).not.toContain('it burns')
  // what went hot into a batch, days before, is not poured hot
  const syrup = aTrial([aLine({ preparation: aBatch([sugar(200), water(100, { temperature: 95 })]) })])
  expect(computeBuild(syrup).cautions.join(' ')).not.toContain('it burns')
  expect(computeBuild(syrup).cautions.join(' ')).not.toContain('Hot syrup')
  expect(makingCautions(syrup).join(' ')).toContain('Hot syrup sticks and burns')
  expect(makingCautions(aTrial([sugar(20)]))).toEqual([])
})

test('sugar over a guide, crystals, milk and ice each say their word', () => {
  expect(said([sugar(51)])).toContain('More than 50 g of free sugars')
  expect(said([sugar(26)])).toContain('More than 25 g of free sugars')
  const syrup = aLine({ preparation: aBatch([sugar(200), water(100)]) })
  expect(said([syrup])).toContain('Syrup will crystallise at 5 °C')
  expect(said([aLine({ kind: 'milk' }), ice(10)])).toMatch(/5 °C or below[\s\S]*Ice is a food/)
})

test('several drinks of one tray: portions of the strongest add up, and one glass alone still counts', () => {
  const cold = aTrial([
    aLine({ name: 'Cold brew', kind: 'coffee', composition: per100({ caffeineLow: 80, caffeineHigh: 90 }) }),
  ])
  const figures = computeBuild(cold)
  const on = (cups: number, portionMl: number | null, liquidMl: number | null = 100) =>
    cautionsTogether([{ build: cold, figures, liquidMl }], figures.allergens, { cups, portionMl })
      .map(({ words }) => words)
      .join(' ')
  // 90 mg in 100 ml (by hand): 4 × 50 ml are 180 mg, 4 × 60 ml are 216 mg
  expect(on(4, 50)).not.toContain('over 200 mg')
  expect(on(4, 60)).toContain('over 200 mg')
  // nobody said how much is poured, or how much is in it: whole glasses, 3 × 90 mg
  expect(on(3, null)).toContain('over 200 mg')
  expect(on(3, 10, null)).toContain('over 200 mg')
  expect(on(2, null)).not.toContain('over 200 mg')
})

test('what may hold caffeine, sugars or alcohol says so, and where a stated zero is nothing does', () => {
  expect(said([aLine({ composition: per100({ caffeineHigh: 1 }) })])).toContain('may hold caffeine')
  expect(said([aLine()])).not.toContain('affeine')
  expect(said([aLine({ composition: per100({ sugars: 5 }) })])).toContain('may hold sugars; people with diabetes')
  expect(said([aLine()])).not.toContain('sugars')
  expect(said([aLine({ name: 'Bitters' })])).toContain('Alcohol is not stated: Bitters.')
  expect(said([water(100), ice(10), sugar(5)])).not.toContain('lcohol')
})

test('alcohol is named with its strength wherever a label states some, and said to be none only by a stated zero', () => {
  const extract = aLine({ name: 'Vanilla extract', alcoholPercent: 35 })
  const within = aBatch([sugar(100), extract], { outputGrams: 190 })
  for (const lines of [[extract], [aLine({ preparation: within })], [aLine({ ...extract, kind: 'sweetener' })]])
    expect(said(lines)).toContain('Brings alcohol: Vanilla extract (35 % by volume).')
  // less than the 1.2 % from which a drink is labelled is said all the same
  expect(said([aLine({ name: 'Kombucha', alcoholPercent: 0.4 })])).toContain('Kombucha (0.4 % by volume)')
  expect(said([aLine({ alcoholPercent: 0 })])).not.toContain('lcohol')
  expect(said([aLine({ name: 'Cola', kind: 'milk' })])).not.toContain('lcohol')
})

test('over several cups it is said that something brings alcohol, and not what', () => {
  const glasses = [aLine({ name: 'Rum', alcoholPercent: 38 }), aLine({ alcoholPercent: 0 })].map((line) => {
    const build = aTrial([line])
    return { build, figures: computeBuild(build), liquidMl: 100 }
  })
  const [one] = glasses
  if (!one) throw new Error('there are two')
  const words = cautionsTogether(glasses, one.figures.allergens, { cups: 2, portionMl: 30 })
  expect(words.filter(({ kind }) => kind === 'alcohol').map((one) => one.words)).toEqual([
    expect.stringMatching(/^Brings alcohol: something in the cups\./),
  ])
  expect(JSON.stringify(words)).not.toContain('Rum')
})
