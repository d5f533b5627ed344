import { expect, test } from 'vitest'
import { densityOfPart, densityOnLine, lineOf, type Part } from '@/lib/drink/part'
import { aBatch, aLine } from '../../support/drink-lines'

const part: Part = { ...aLine({ name: 'Oat drink', density: 1.03 }), ref: 'ingredient:oat' }

test('a part with an amount is a line that stands in no other’s place, and knows nothing it was not told', () => {
  const line = lineOf(part, { key: '1', role: 'milk', targetGrams: 60 })
  expect(line).toMatchObject({ name: 'Oat drink', density: 1.03, key: '1', role: 'milk', targetGrams: 60 })
  expect([line.insteadOf, line.weighedGrams, line.typed, line.temperature]).toEqual([null, null, null, null])
  expect(line).not.toHaveProperty('ref')
})

const poured = (grams: number, density: number) => aLine({ targetGrams: grams, density })

// By hand: 600 g at 1.2 g/ml are 500 ml, 400 g at 1 g/ml are 400 ml; 1000 g in 900 ml are 1.111111 g/ml.
test('a batch that nobody measured weighs what its mass and its room say', () => {
  const batch = aBatch([poured(600, 1.2), poured(400, 1)], { kind: 'mix' })
  expect(densityOfPart({ density: null, preparation: batch })).toBe(1.111111)
  expect(densityOfPart({ density: 1.05, preparation: batch })).toBe(1.05)
  expect(densityOfPart({ density: null, preparation: { ...batch, outputGrams: null } })).toBeNull()
  expect(densityOfPart({ density: null, preparation: null })).toBeNull()
})

test('a density that no food has is no density, however it got there', () => {
  for (const density of [2500, 0.05, 0, -1, Number.NaN])
    expect(densityOfPart({ density, preparation: null })).toBeNull()
})

test('a typed density counts for the part it was typed for, and for no other', () => {
  const typed = { value: 1.2, of: 'ingredient:oat' }
  expect(densityOnLine('ingredient:oat', part, typed)).toBe(1.2)
  expect(densityOnLine('ingredient:soy', { ...part, density: 1.04 }, typed)).toBe(1.04)
  expect(densityOnLine('ingredient:soy', { ...part, density: null }, typed)).toBeNull()
  expect(densityOnLine('new', null, typed)).toBeNull()
  expect(densityOnLine('new', null, { value: 1.3, of: 'new' })).toBe(1.3)
})
