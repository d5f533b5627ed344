import { expect, test } from 'vitest'
import { AS_ON_SHEET, withCorrectedDoses } from '@/lib/drink/for-today'
import { USUAL_SCALES } from '@/lib/drink/house-scales'
import { scaleSheet } from '@/lib/drink/scale'
import { aLine, aTrial, water } from '../../support/drink-lines'

const syrup = aLine({ key: '2', name: 'Date syrup', kind: 'sweetener', targetGrams: 30, toleranceGrams: 1 })
const trial = aTrial([water(100, { key: '1' }), syrup])
/* 30 g of 50 °Bx hold 15 g of sugar, which stand in 25 g of 60 °Bx. */
const today = {
  corrected: { 2: { batch: 4, grams: 25, sheetGrams: 30 } },
  unread: {},
  pressGrams: { 2: 12.5 },
  scales: USUAL_SCALES,
}

/* By hand: 2 % of 25 g are 0.5 g a glass; 100 + 25 g, twice; two presses of 12.5 g a glass. */
test('a corrected dose is what is weighed, with its own tolerance, and the sheet’s is named beside it', () => {
  const { steps, finalGrams } = scaleSheet(trial, 2, today)
  expect(steps[1]).toMatchObject({
    add: 50,
    running: 250,
    tolerance: expect.closeTo(1, 9),
    corrected: { batch: 4, sheetGrams: 60 },
    presses: { is: 'about', least: 4, most: 4 },
  })
  expect(steps[0]).toMatchObject({ add: 200, corrected: null, presses: null })
  expect(finalGrams).toBe(250)
})

test('a dose that nobody can say is none: the sheet’s is told beside it and stands nowhere as if it held', () => {
  const unread = {
    corrected: {},
    unread: { 2: { batch: 4, sheetGrams: 30 } },
    pressGrams: { 2: 12.5 },
    scales: USUAL_SCALES,
  }
  const { steps, finalGrams } = scaleSheet(trial, 2, unread)
  expect(steps[1]).toMatchObject({ add: null, running: null, presses: null, unread: { batch: 4, sheetGrams: 60 } })
  expect(steps[1]?.missing).toHaveLength(1)
  expect(finalGrams).toBeNull()
})

test('without one the sheet stands as it is', () => {
  expect(withCorrectedDoses(trial, AS_ON_SHEET)).toEqual(trial)
  expect(scaleSheet(trial, 1).steps[1]).toMatchObject({ add: 30, tolerance: 1, corrected: null })
})
