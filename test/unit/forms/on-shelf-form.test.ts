import { expect, test } from 'vitest'
import { printCount, queryOfMake, readShelfField } from '@/lib/forms/on-shelf-form'

test('what is left on the shelf is read by what it is; what is left empty is not known, and not nothing', () => {
  const query = { 'have-syrup': '430,5', 'have-infusion': '0' }
  expect(['syrup', 'brew', 'infusion'].map((id) => readShelfField(id, query))).toEqual([
    { field: 'have-syrup', typed: '430,5', problem: undefined, grams: 430.5 },
    { field: 'have-brew', typed: '', problem: undefined, grams: null },
    { field: 'have-infusion', typed: '0', problem: undefined, grams: 0 },
  ])
  expect(readShelfField('syrup', { 'have-syrup': printCount(1200.25) }).grams).toBe(1200.25)
})

test('a slip is said at its field', () => {
  for (const typed of ['-1', 'half', '1000001']) {
    const read = readShelfField('syrup', { 'have-syrup': typed })
    expect([read.typed, typeof read.problem, read.grams]).toEqual([typed, 'string', null])
  }
})

test('of what a form sends only what the page asks for is taken along', () => {
  const sent = new FormData()
  for (const [name, value] of Object.entries({ amount: '10', 'have-b1': '5', $ACTION_ID_x: '', other: 'x' }))
    sent.append(name, value)
  sent.append('have-b2', new Blob(['x']))
  expect(queryOfMake(sent)).toEqual({ amount: '10', 'have-b1': '5' })
})
