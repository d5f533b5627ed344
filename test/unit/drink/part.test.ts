import { expect, test } from 'vitest'
import { lineOf, type Part } from '@/lib/drink/part'
import { aLine } from '../../support/drink-lines'

const part: Part = { ...aLine({ name: 'Oat drink', density: 1.03 }), ref: 'ingredient:oat' }

test('a part with an amount is a line that stands in no other’s place, and knows nothing it was not told', () => {
  const line = lineOf(part, { key: '1', role: 'milk', targetGrams: 60 })
  expect(line).toMatchObject({ name: 'Oat drink', density: 1.03, key: '1', role: 'milk', targetGrams: 60 })
  expect([line.insteadOf, line.weighedGrams, line.typed, line.temperature]).toEqual([null, null, null, null])
  expect(line).not.toHaveProperty('ref')
})
