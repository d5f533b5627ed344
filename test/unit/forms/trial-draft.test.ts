import { expect, test } from 'vitest'
import type { Part } from '@/lib/drink/part'
import type { Preparation } from '@/lib/drink/trial'
import { draftSheet, type DraftGround } from '@/lib/forms/trial-draft'
import { aLine, aTrial } from '../../support/drink-lines'

const part = (ref: string, more: Parameters<typeof aLine>[0]): Part => ({ ...aLine(more), ref })
const milk = part('milk', { name: 'Whole milk', kind: 'milk', density: 1.031 })
const thick = part('thick', { name: 'Condensed milk', kind: 'milk', density: 1.292 })
const oat = part('oat', { name: 'Oat drink', kind: 'milk', density: null })
const almond = part('almond', { name: 'Almond drink', kind: 'milk', allergens: { 'tree-nuts': 'contains' } })
const economy = { id: 'e', name: 'economy' }
const ground: DraftGround = {
  parts: [milk, thick, oat, almond, { ...thick, ref: 'pumped', pumpMl: 8 }],
  levels: [economy],
  alternatives: [{ part: 'milk', before: 1, level: economy, other: almond }],
  vessels: [],
  money: aTrial([]).money,
  packMinor: 0,
  currencyDigits: 2,
  room: null,
  allergenList: 'eu',
}

function sheet(
  lines: readonly Readonly<Record<string, string>>[],
  more: Readonly<Record<string, string>> = {},
  parts = ground.parts,
) {
  const form = new FormData()
  for (const [row, line] of lines.entries())
    for (const [name, value] of Object.entries(line)) form.set(`lines[${row}].${name}`, value)
  for (const [name, value] of Object.entries(more)) form.set(name, value)
  return draftSheet(form, { ...ground, parts })
}

// The densities are those of the trade's table (USDA weight of a US fl oz); 30 ml · 1.031 = 30.93 g, 30 ml · 1.292 = 38.76 g.
test('while one types, too, a density counts for the ingredient it was typed for alone', () => {
  const line = { amount: '30', unit: 'ml', density: '1.031', densityFor: 'milk' }
  expect(sheet([{ ...line, part: 'milk' }]).build.lines[0]?.targetGrams).toBeCloseTo(30.93, 9)
  expect(sheet([{ ...line, part: 'thick' }]).build.lines[0]).toMatchObject({ role: 'milk', kind: 'milk' })
  expect(sheet([{ ...line, part: 'thick' }]).build.lines[0]?.targetGrams).toBeCloseTo(38.76, 9)
})

test('a volume that nobody can weigh is left out of the totals by name, and asked for', () => {
  const { figures, unread } = sheet([
    { part: 'milk', amount: '100', unit: 'g' },
    { part: 'oat', amount: '100', unit: 'ml', density: '1.031', densityFor: 'milk' },
  ])
  expect(unread).toEqual([{ row: '1', number: 2, message: expect.stringContaining('how many grams is a ml') }])
  expect(figures.totalMass).toMatchObject({ known: true, value: 100 })
  expect(figures.problems.map(({ field }) => field)).toEqual(['lines.1.typed.density'])
})

// by hand: 2 presses · 8 ml · 1.292 g/ml = 20.672 g
test('presses of a pump that was measured are counted; of one that was not, the line is left out by name', () => {
  const { figures, unread } = sheet([
    { part: 'pumped', amount: '2', unit: 'pump' },
    { part: 'thick', amount: '2', unit: 'pump' },
  ])
  expect(unread).toEqual([{ row: '1', number: 2, message: expect.stringContaining('measured') }])
  expect(figures.totalMass).toMatchObject({ known: true, value: expect.closeTo(20.672, 9) })
})

/*
 * By hand: two parts of 45 g are 90 g, with 90 g of milk 180 g; 10 % of the glass leave 90 % for these, 180 / 0.9 = 200 g, so
 * the share is 20 g.
 */
test('shares of the glass and parts are counted as they are typed; what they follow from is asked for at their lines', () => {
  const lines = [
    { part: 'thick', amount: '10', unit: 'percent' },
    { part: 'milk', amount: '90', unit: 'g' },
    { part: 'almond', amount: '2', unit: 'part' },
  ]
  const made = sheet(lines, { partGrams: '45' })
  expect(made.unread).toEqual([])
  expect(made.build.lines.map(({ targetGrams }) => targetGrams)).toEqual([expect.closeTo(20, 9), 90, 90])
  expect(made.build.lines[2]?.typed).toEqual({ amount: 2, unit: 'part', density: null, partGrams: 45 })

  const unsaid = sheet(lines)
  expect(unsaid.unread).toMatchObject([
    { row: '0', message: expect.stringContaining('not known while line 3 is not') },
    { row: '2', message: expect.stringContaining('how many grams is one part') },
  ])
  expect(unsaid.figures.totalMass).toMatchObject({ known: true, value: 90 })
  const all = sheet([{ part: 'thick', amount: '10', unit: 'percent' }])
  expect(all.unread).toMatchObject([{ row: '0', message: expect.stringContaining('Percent of what?') }])
  expect(sheet(lines, { partGrams: '4x' }).unreadFields).toEqual(['grams of one part'])
})

test('something new is what was said of it, and nothing in particular before', () => {
  const line = { part: 'new', newName: 'Orange zest', amount: '2', unit: 'g', role: 'coffee' }
  expect(sheet([line]).build.lines[0]).toMatchObject({ kind: 'other', form: 'liquid', labelRead: false })
  const said = { ...line, newKind: 'other', newForm: 'powder', role: '' }
  expect(sheet([said]).build.lines[0]).toMatchObject({ kind: 'other', form: 'powder', role: 'other' })
})

test('at the level that is chosen, the line whose alternative it is has what the level uses, wherever it was moved', () => {
  const lines = [
    { part: 'milk', amount: '10', place: '1' },
    { part: 'thick', amount: '20', place: '2' },
    { part: 'milk', amount: '30', place: '0' },
  ]
  const made = sheet(lines, { costLevelId: 'e' })
  // In build order the milk of 30 g comes first; the second milk is the one the level swaps.
  expect(made.build.lines.map(({ name, targetGrams }) => [name, targetGrams])).toEqual([
    ['Whole milk', 30],
    ['Almond drink', 10],
    ['Condensed milk', 20],
  ])
  expect(made.build.level).toBe('economy')
  const unsaid = sheet(lines)
  expect(unsaid.build.lines.map(({ name }) => name)).not.toContain('Almond drink')
  expect(unsaid.figures.allergens.rows.find(({ id }) => id === 'tree-nuts')).toMatchObject({ state: 'contains' })
})

test('a line that cannot be read is named and left out of the totals, not of the allergens; what has no name yet counts', () => {
  const plain = { part: 'milk', amount: '100', unit: 'g' }
  const unreadable = sheet([plain, { part: 'almond', amount: '1,500', unit: 'g' }])
  expect(unreadable.figures.totalMass).toMatchObject({ known: true, value: 100 })
  expect(unreadable.unread).toMatchObject([
    { row: '1', number: 2, message: expect.stringContaining('can be read twice') },
  ])
  expect(unreadable.figures.problems.map(({ field }) => field)).toEqual(['lines.1.targetGrams'])
  expect(unreadable.figures.allergens.rows.find(({ id }) => id === 'tree-nuts')).toMatchObject({ state: 'contains' })
  const slips = [
    { weighed: '1,500' },
    { tolerance: 'two' },
    { temperature: 'cold' },
    { amount: '10 %' },
    { amount: '' },
  ]
  for (const slip of slips) {
    const made = sheet([plain, { part: 'thick', amount: '10', unit: 'g', ...slip }])
    expect([made.unread.length, made.figures.totalMass]).toMatchObject([1, { value: 100 }])
  }
  for (const what of ['new', '']) {
    const { allergens, totalMass } = sheet([plain, { part: what, amount: '5', unit: 'g' }]).figures
    expect(totalMass).toMatchObject({ known: true, value: 105 })
    expect(allergens.unread).toEqual(['something not named yet'])
    expect(allergens.rows.every(({ state }) => state === 'not-stated')).toBe(true)
  }
  // A line of which nothing was typed yet is no line.
  expect(sheet([plain, { part: '', amount: '', unit: 'g' }])).toMatchObject({ unread: [], build: { lines: [{}] } })
})

test('a number beside the lines that cannot be read is named: the figures go on without it', () => {
  const plain = { part: 'milk', amount: '100', unit: 'g' }
  expect(sheet([plain], { strength: '1,4', iceTemperature: '−10' }).unreadFields).toEqual([])
  expect(sheet([plain], { strength: '1..4', iceTemperature: '10' }).unreadFields).toEqual([
    'dissolved solids',
    'temperature of the ice',
  ])
})

const aBatch = (batch: string, inputs: Preparation['inputs']): Preparation => ({
  name: 'Date syrup',
  kind: 'syrup',
  batch,
  inputs,
  outputGrams: 100,
  brixMeasured: null,
  densityMeasured: null,
  brew: null,
  storageTemperature: null,
})
const syrup = part('batch:2', {
  name: 'Date syrup, batch 2',
  kind: 'sweetener',
  preparation: aBatch('2', [aLine({ name: 'Dates', targetGrams: 100, labelRead: true })]),
})
const walnut = part('batch:3', {
  name: 'Date syrup, batch 3',
  kind: 'sweetener',
  preparation: aBatch('3', [aLine({ name: 'Walnuts', allergens: { 'tree-nuts': 'contains' }, labelRead: true })]),
})
const named: Part = { ...syrup, ref: 'preparation:p', beside: [walnut] }
const lapsed: Part = { ...named, preparation: { ...aBatch('', []), outputGrams: null } }

test('a preparation is named: what may be poured another day counts for allergens, and for no figure', () => {
  const line = { part: 'preparation:p', amount: '30', unit: 'g' }
  const { build, figures, unread } = sheet([line], {}, [...ground.parts, named])
  expect(unread).toEqual([])
  expect(build.lines[0]).toMatchObject({ name: 'Date syrup, batch 2', anyBatch: true, targetGrams: 30 })
  expect(build.beside.map(({ line: { name }, why }) => [name, why])).toEqual([['Date syrup, batch 3', 'other-batch']])
  expect(figures.allergens.rows.find(({ id }) => id === 'tree-nuts')).toMatchObject({ state: 'contains' })
  expect(figures.totalMass).toMatchObject({ known: true, value: 30 })
})

test('with no batch in date the line is marked and left out of the totals by name', () => {
  const { figures, unread } = sheet(
    [
      { part: 'milk', amount: '100', unit: 'g' },
      { part: 'preparation:p', amount: '30', unit: 'g' },
    ],
    {},
    [...ground.parts, lapsed],
  )
  expect(unread).toEqual([{ row: '1', number: 2, message: expect.stringContaining('No batch of it is in date') }])
  expect(figures.totalMass).toMatchObject({ known: true, value: 100 })
  expect(figures.problems.map(({ message }) => message)).toEqual([
    'No batch of Date syrup is in date: make one, or name something else in its place.',
  ])
})
