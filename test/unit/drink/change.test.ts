import { expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import {
  changeLine,
  changeSentence,
  changedThings,
  changesBetween,
  figureRows,
  manyChangesWarning,
  mendedFigures,
  pairLines,
} from '@/lib/drink/change'
import { swapSweetener } from '@/lib/drink/ladder'
import { aBatch, aBrew, aLine, aTrial, grounds, ice, sugar, water } from '../../support/drink-lines'

const base = aTrial([grounds(15), aLine({ key: 's', name: 'Syrup', role: 'sweetener', targetGrams: 20 }), ice(200)], {
  brew: aBrew(),
})
const dose = (targetGrams: number) => ({
  ...base,
  lines: base.lines.map((line) => (line.key === 's' ? { ...line, targetGrams } : line)),
})

test('a trial and itself are the same drink, whatever was weighed', () => {
  const weighed = { ...base, name: 'B', lines: base.lines.map((line) => ({ ...line, weighedGrams: 1 })) }
  expect(changesBetween(base, weighed)).toEqual([])
  expect(changeSentence('B', 'A', [])).toBe('B is the same drink as A.')
  expect(changeLine([])).toBe('no change')
})

test('one dose changed is one thing, in a line and in a sentence', () => {
  const changes = changesBetween(base, dose(30))
  expect(changeLine(changes)).toBe('Syrup 20 g → 30 g')
  expect(changeSentence('B', 'A', changes)).toBe('B differs from A: Syrup 20 g → 30 g.')
  expect(changedThings(changes)).toBe(1)
  expect(manyChangesWarning(changes)).toBeNull()
})

test('more than one thing is warned of by name', () => {
  const two = { ...dose(30), coffeeTemperature: 60, brew: aBrew({ ratio: 12, method: 'pour-over' }) }
  const changes = changesBetween(base, two)
  expect(changes.map(({ what }) => what)).toEqual(['Syrup', 'method', 'brew ratio', 'coffee'])
  expect(manyChangesWarning(changes)).toBe(
    '4 things differ (Syrup, method, brew ratio, coffee): a difference in taste will not have one cause.',
  )
})

test('a ratio is never shown without its kind', () => {
  const [change] = changesBetween(base, { ...base, brew: aBrew({ ratio: 12 }) })
  expect(change?.clause).toBe('brew ratio 1:10 coffee to water → 1:12 coffee to water')
})

test('a line added, left out or replaced is said as such', () => {
  const more = { ...base, lines: [...base.lines, aLine({ key: 'm', name: 'Milk', kind: 'milk', targetGrams: 60 })] }
  expect(changeLine(changesBetween(base, more))).toBe('adds 60 g of Milk')
  expect(changeLine(changesBetween(more, base))).toBe('leaves out Milk')
  const other = { ...more, lines: more.lines.map((l) => (l.key === 'm' ? { ...l, name: 'Oat drink' } : l)) }
  expect(changeLine(changesBetween(more, other))).toBe('uses 60 g of Oat drink in place of 60 g of Milk')
})

test('another batch of the same syrup is another thing', () => {
  const from = (batch: string) =>
    aTrial([aLine({ name: 'Syrup', preparation: aBatch([sugar(50), water(50)], { batch }) })])
  expect(changeLine(changesBetween(from('S-1'), from('S-2')))).toBe('Syrup 100 g (batch S-1) → 100 g (batch S-2)')
})

test('a syrup swapped with sugar and water held is one change, its water only keeps the balance', () => {
  const syrup = (sugars: number) =>
    aLine({
      key: 's',
      name: `Syrup ${sugars}`,
      kind: 'sweetener',
      preparation: aBatch([sugar(sugars), water(100 - sugars)]),
    })
  const before = aTrial([syrup(50), water(100, { key: 'w' })])
  const swap = swapSweetener(before, 's', syrup(60), 'w')
  const changes = swap.ok ? changesBetween(before, swap.build) : []
  expect(changes.length).toBe(2)
  expect(changedThings(changes)).toBe(1)
  expect(changeSentence('B', 'A', changes)).toContain('to keep the balance')
})

test('lines are paired by name before key, and none is lost', () => {
  const pairs = pairLines(
    [aLine({ key: 'a', name: 'X' })],
    [aLine({ key: 'a', name: 'Y', kind: 'ice' }), aLine({ key: 'b', name: 'X' })],
  )
  expect(pairs.map(({ before, after }) => [before?.name, after?.name])).toEqual([
    ['X', 'X'],
    [undefined, 'Y'],
  ])
})

test('figures stand side by side, and what is not known is empty, not zero', () => {
  const rows = figureRows(computeBuild(base), computeBuild({ ...dose(30), coffeeTemperature: null }))
  expect(rows.find(({ what }) => what === 'total mass')).toEqual({
    what: 'total mass',
    units: { before: 'g', after: 'g' },
    before: 340,
    after: 350,
  })
  expect(rows.find(({ what }) => what === 'coffee solids after melt')?.after).toBeNull()
})

test('of one sheet worked out twice nothing was mended; where a formula gives another figure, that one is named', () => {
  const then = computeBuild(aTrial([grounds(15), ice(100)], { brew: aBrew() }))
  expect(mendedFigures(then, then)).toEqual([])
  if (!then.caffeine.known) throw new Error('caffeine is known')
  const wider = { ...then, caffeine: { ...then.caffeine, high: then.caffeine.high + 40 } }
  expect(mendedFigures(then, wider).map(({ what }) => what)).toEqual(['caffeine, high end'])
  const lost = { ...then, sugars: { known: false, unit: 'g', missing: ['sugars of Milk'] } as const }
  expect(mendedFigures(then, lost)).toMatchObject([{ what: 'sugars', before: 0, after: null }])
})

test('an ingredient whose name reads like a swap is none: its water is a thing of its own', () => {
  const cream = (targetGrams: number) => aLine({ key: 'c', name: 'uses up cream', targetGrams })
  const changes = changesBetween(aTrial([cream(30), water(100)]), aTrial([cream(40), water(90)]))
  expect(changes.map(({ keeps }) => keeps)).toEqual([false, false])
  expect(manyChangesWarning(changes)).toContain('2 things differ')
})
