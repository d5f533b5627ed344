import { expect, test } from 'vitest'
import { doseOf, pressesIn, withoutPump } from '@/lib/drink/dose'
import { aLine } from '../../support/drink-lines'

const syrup = { density: 1.258, preparation: null, pumpMl: 8 }
const presses = (amount: number) => ({ amount, unit: 'pump' })

// by hand: 2 presses · 8 ml · 1.258 g/ml = 20.128 g
test('a press of the pump is what the house measured, through the density of what is in the bottle', () => {
  expect(doseOf(presses(2), 'batch:1', syrup, null)).toEqual({
    ok: true,
    value: { grams: expect.closeTo(20.128, 9), density: 1.258 },
  })
  const typed = { value: 1.3, of: 'batch:1' }
  // by hand: 2 · 8 · 1.3 = 20.8 g
  expect(doseOf(presses(2), 'batch:1', syrup, typed)).toMatchObject({ value: { grams: expect.closeTo(20.8, 9) } })
})

test('a pump that nobody measured, and a syrup of unknown density, give no grams', () => {
  for (const part of [{ ...syrup, pumpMl: null }, { density: 1.258, preparation: null }, null])
    expect(doseOf(presses(2), 'batch:1', part, null)).toEqual({ ok: false, reason: 'pump-missing' })
  expect(doseOf(presses(2), 'batch:1', { ...syrup, density: null }, null)).toEqual({
    ok: false,
    reason: 'density-missing',
  })
})

test('grams need neither pump nor density, and keep none', () => {
  expect(doseOf({ amount: 25, unit: 'g' }, 'batch:1', syrup, null)).toEqual({
    ok: true,
    value: { grams: 25, density: null },
  })
})

test('presses of another house’s pump are told as the ml that they gave', () => {
  const line = aLine({ targetGrams: 20.128, typed: { amount: 2, unit: 'pump', density: 1.258 } })
  expect(withoutPump(line)).toEqual({ amount: 16, unit: 'ml', density: 1.258 })
  expect(withoutPump({ ...line, typed: { amount: 2, unit: 'pump', density: null } })).toEqual({
    amount: 20.128,
    unit: 'g',
    density: null,
  })
  expect(withoutPump({ ...line, typed: { amount: 3, unit: 'l', density: 1 } })).toMatchObject({ unit: 'l' })
  expect(pressesIn(line, 201.28)).toBeCloseTo(20, 9)
  expect(pressesIn({ ...line, typed: null }, 201.28)).toBeNull()
})
