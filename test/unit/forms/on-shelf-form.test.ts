import { expect, test } from 'vitest'
import { readOnShelfForm } from '@/lib/forms/on-shelf-form'

test('what is left on the shelf is read by its place; what is left empty is not known, and not nothing', () => {
  const { fields, grams } = readOnShelfForm(['Date syrup', 'Cold brew', 'Infusion'], { have1: '430,5', have3: '0' })
  expect([...grams]).toEqual([
    ['Date syrup', 430.5],
    ['Infusion', 0],
  ])
  expect(fields.map(({ field, problem }) => [field, problem])).toEqual([
    ['have1', undefined],
    ['have2', undefined],
    ['have3', undefined],
  ])
})

test('a slip is said at its field', () => {
  for (const have1 of ['-1', 'half', '1000001']) {
    const { fields, grams } = readOnShelfForm(['Date syrup'], { have1 })
    expect([fields[0]?.typed, typeof fields[0]?.problem, grams.size]).toEqual([have1, 'string', 0])
  }
})
