import { expect, test } from 'vitest'
import { readWarmthForm } from '@/lib/forms/warmth-form'

const asked = [
  { name: 'Cold brew', isIce: false },
  { name: 'Ice', isIce: true },
]

test('temperatures are read by their place; one that is left empty is not known, and no slip', () => {
  const { fields, celsius } = readWarmthForm(asked, { warm1: '4,5', warm2: '' })
  expect([...celsius]).toEqual([['Cold brew', 4.5]])
  expect(fields.map(({ field, typed, problem }) => [field, typed, problem])).toEqual([
    ['warm1', '4,5', undefined],
    ['warm2', '', undefined],
  ])
})

test('a slip is said at its field, and what was typed stands there', () => {
  for (const query of [{ warm2: '5' }, { warm2: '-41' }, { warm1: 'cold' }, { warm1: '101' }, { warm1: '-6' }]) {
    const { fields, celsius } = readWarmthForm(asked, query)
    const field = fields.find(({ problem }) => problem !== undefined)
    expect([field?.typed]).toEqual(Object.values(query))
    expect(celsius.size).toBe(0)
  }
})
