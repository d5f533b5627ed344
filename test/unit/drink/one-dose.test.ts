import { expect, test } from 'vitest'
import { findOneDose } from '@/lib/drink/one-dose'
import { aBrew, aLine, aTrial } from '../../support/drink-lines'

const drink = (syrup: number, milk = 120, more: object = {}) =>
  aTrial([
    aLine({ key: 'milk', name: 'Milk', targetGrams: milk }),
    aLine({ key: 'syrup', name: 'Syrup', targetGrams: syrup, ...more }),
  ])

test('one thing in three amounts, all else weighed alike', () => {
  expect(findOneDose([drink(20), drink(30, 121), drink(40, 119)])).toEqual({ name: 'Syrup', grams: [20, 30, 40] })
  expect(findOneDose([drink(40), drink(20), drink(30), drink(30)])).toEqual({ name: 'Syrup', grams: [40, 20, 30, 30] })
})

test('none at all is an amount, and the same thing on two lines is one', () => {
  const none = aTrial([aLine({ key: 'milk', name: 'Milk', targetGrams: 120 })])
  expect(findOneDose([none, drink(20), drink(40)])).toEqual({ name: 'Syrup', grams: [0, 20, 40] })
  const split = aTrial([...drink(15).lines, aLine({ key: 'more', name: 'Syrup', targetGrams: 15 })])
  expect(findOneDose([drink(20), split, drink(40)])?.grams).toEqual([20, 30, 40])
})

test('what was weighed counts, not what was wanted', () => {
  expect(findOneDose([drink(20), drink(30, 120, { weighedGrams: 35 }), drink(40)])?.grams).toEqual([20, 35, 40])
})

test('two things that differ, two amounts only, another brew: nobody can say which was liked', () => {
  expect(findOneDose([drink(20), drink(30), drink(40, 140)])).toBeNull()
  expect(findOneDose([drink(20), drink(40), drink(40)])).toBeNull()
  expect(findOneDose([drink(20), drink(20.2), drink(20.4)])).toBeNull()
  expect(findOneDose([])).toBeNull()
  const other = { ...drink(30), brew: aBrew({ seconds: 300 }) }
  expect(findOneDose([drink(20), other, drink(40)])).toBeNull()
})
