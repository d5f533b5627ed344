/** What goes into several glasses, part by part: our own rule, no source. */
import { expect, test } from 'vitest'
import { LOCAL_RULES } from '@/lib/drink/caution'
import { brewsOf, cautionsBeside, partName, partsBeside } from '@/lib/drink/beside'
import { aLine, aTrial, ice, sugar, water } from '../../support/drink-lines'

test('lines stand together by name, ice last, and what a glass has not is empty', () => {
  const first = aTrial([ice(180), sugar(20), water(60, { temperature: 5 })])
  const second = aTrial([sugar(10), sugar(5, { key: 'again' }), ice(200)])
  const parts = partsBeside([first, second])
  expect(parts.map(({ name, isIce }) => [name, isIce])).toEqual([
    ['White sugar', false],
    ['Water', false],
    ['Ice', true],
  ])
  expect(parts.map(({ amounts }) => amounts.map((one) => one.map(({ grams }) => grams)))).toEqual([
    [[20], [10, 5]],
    [[60], []],
    [[180], [200]],
  ])
  expect(parts[1]?.amounts[0]?.[0]?.temperature).toBe(5)
  expect(partsBeside([])).toEqual([])
})

test('a part is what it is made of: a preparation is one, whatever batch of it', () => {
  const mix = {
    name: 'Syrup',
    kind: 'syrup',
    batch: '1',
    inputs: [sugar(50)],
    outputGrams: 100,
    brixMeasured: 50,
    densityMeasured: null,
    brew: null,
    storageTemperature: null,
  } as const
  const poured = (batch: string) => aTrial([aLine({ name: `Syrup, batch ${batch}`, preparation: { ...mix, batch } })])
  expect(partName(aLine({ name: 'Milk' }))).toBe('Milk')
  expect(partsBeside([poured('1'), poured('2')])).toMatchObject([{ name: 'Syrup', amounts: [[{}], [{}]] }])
})

test('grounds are a brew and no part', () => {
  const grounds = aLine({ name: 'Coffee', kind: 'coffee', form: 'grounds', targetGrams: 15, grind: 'fine' })
  const brew = {
    method: 'drip',
    brewing: 'percolation',
    ratioKind: 'water-in',
    ratio: 16,
    retention: 2,
    extractionPercent: null,
    strengthPercent: null,
    waterTemperature: 93,
    seconds: 240,
  } as const
  const build = { ...aTrial([grounds, sugar(10)]), brew }
  // by hand: 15 · 16 = 240 g of water, of which 15 · 2 = 30 g stay in the grounds
  expect(brewsOf(build)).toMatchObject([
    { name: 'Coffee', dose: 15, water: 240, gives: 210, grind: 'fine', seconds: 240 },
  ])
  expect(partsBeside([build]).map(({ name }) => name)).toEqual(['White sugar'])
})

test('each caution is said once, with the glasses that it is said of', () => {
  expect(cautionsBeside([{ cautions: ['hot', 'rules'] }, { cautions: ['rules'] }, { cautions: [] }])).toEqual([
    { words: 'hot', of: [0] },
    { words: 'rules', of: [0, 1] },
  ])
})

test('what only a later glass holds still stands before the local rules, the gravest first', () => {
  const said = cautionsBeside([
    { cautions: ['hot', LOCAL_RULES] },
    { cautions: ['Contains: milk', 'hot', LOCAL_RULES] },
    { cautions: [LOCAL_RULES] },
  ])
  expect(said.map(({ words }) => words)).toEqual(['Contains: milk', 'hot', LOCAL_RULES])
})
