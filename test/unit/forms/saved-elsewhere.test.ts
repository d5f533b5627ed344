import { expect, test } from 'vitest'
import { differencesOf, settled, withFieldOf, type FormValues } from '@/lib/forms/saved-elsewhere'

const stored: FormValues = {
  name: '20 g honey',
  iceIsWet: undefined,
  method: 'drip',
  cups: ['a', 'b'],
  lines: [
    { part: 'coffee', amount: '22', unit: 'g', density: '' },
    { part: 'honey', amount: '20', unit: 'g', density: '' },
  ],
}
const typed: FormValues = settled({
  opened: 'mark',
  $ACTION_KEY: 'x',
  name: 'Sweeter',
  method: 'drip',
  cups: ['b', 'a'],
  lines: [
    { role: 'sweetener', part: 'honey', amount: '12', unit: 'g', place: '1' },
    undefined,
    { role: 'coffee', unit: 'g', place: '2' },
    { part: 'coffee', amount: '22', unit: 'g', place: '0' },
  ],
})

test('rows stand in the order the person gave them, without gaps and without rows nobody has filled', () => {
  expect(typed['lines']).toEqual([
    { part: 'coffee', amount: '22', unit: 'g' },
    { role: 'sweetener', part: 'honey', amount: '12', unit: 'g' },
  ])
  expect(Object.keys(typed)).not.toContain('$ACTION_KEY')
})

test('only what differs is offered, field by field; nothing typed is nothing stored', () => {
  const other = {
    ...stored,
    lines: (stored['lines'] as FormValues[]).map((row) => ({
      ...row,
      role: row['part'] === 'honey' ? 'sweetener' : undefined,
    })),
  }
  expect(differencesOf(typed, other)).toEqual([
    { path: 'name', typed: ['Sweeter'], stored: ['20 g honey'] },
    { path: 'lines[1].amount', typed: ['12'], stored: ['20'] },
  ])
  expect(differencesOf(other, other)).toEqual([])
})

test('a list that has other rows now is offered as a whole', () => {
  const longer = { ...stored, lines: [...(stored['lines'] as FormValues[]), { part: 'ice', amount: '90', unit: 'g' }] }
  expect(differencesOf(typed, longer).at(-1)).toEqual({
    path: 'lines',
    typed: ['coffee 22 g', 'honey 12 g'],
    stored: ['coffee 22 g', 'honey 20 g', 'ice 90 g'],
  })
})

test('groups and boxes are fields too', () => {
  const before = { allergens: { milk: 'contains' }, labelRead: 'on', cups: ['a'] }
  const after = { allergens: { milk: 'not-stated' }, cups: ['a', 'c'] }
  expect(differencesOf(settled(after), settled(before))).toEqual([
    { path: 'allergens.milk', typed: ['not-stated'], stored: ['contains'] },
    { path: 'cups', typed: ['a', 'c'], stored: ['a'] },
    { path: 'labelRead', typed: [], stored: ['on'] },
  ])
})

test('what belongs to the page is no difference', () => {
  const rows = [{ id: 'line-1', part: 'x' }]
  expect(differencesOf({ opened: 'a', lines: rows }, { lines: [{ id: 'line-2', part: 'x' }] })).toEqual([])
})

test('a choice of a cost level that is left alone is a row all the same', () => {
  expect(
    settled({
      lines: [
        { id: '1', part: '' },
        { id: '2', part: 'x' },
      ],
    })['lines'],
  ).toHaveLength(2)
})

test('one field, or one list, is taken and all else is left', () => {
  const taken = withFieldOf(typed, stored, 'lines[1].amount')
  expect(taken['lines']).toEqual([
    { part: 'coffee', amount: '22', unit: 'g' },
    { role: 'sweetener', part: 'honey', amount: '20', unit: 'g' },
  ])
  expect(withFieldOf(typed, stored, 'name')).toEqual({ ...typed, name: '20 g honey' })
  expect(withFieldOf(typed, stored, 'lines')['lines']).toBe(stored['lines'])
  expect(withFieldOf({}, { allergens: { milk: 'contains' } }, 'allergens.milk')).toEqual({
    allergens: { milk: 'contains' },
  })
})

test('a density is taken with the ingredient it was typed for', () => {
  const mine = { lines: [{ part: 'oat', density: '1.02', densityFor: 'oat' }] }
  const theirs = { lines: [{ part: 'milk', density: '1.031', densityFor: 'milk' }] }
  expect(differencesOf(mine, theirs).map(({ path }) => path)).toEqual(['lines[0].part', 'lines[0].density'])
  expect(withFieldOf(mine, theirs, 'lines[0].density')).toEqual({
    lines: [{ part: 'oat', density: '1.031', densityFor: 'milk' }],
  })
})
