import { expect, test } from 'vitest'
import { pressesFor } from '@/lib/drink/presses'
import { aLine } from '../../support/drink-lines'

const typed = (amount: number, targetGrams: number) =>
  aLine({ targetGrams, typed: { amount, unit: 'pump', density: 1.258 } })

/* By hand: 8 ml of 1.258 g/ml are 10.064 g a press. 20.5 g are 2.04 of them, 2.1 % off; 14.2 g are 1.41; 9 g are less than one. */
test.each([
  [20.5, { is: 'about', least: 2, most: 2 }],
  [10.5, { is: 'about', least: 1, most: 1 }],
  [9.6, { is: 'about', least: 1, most: 1 }],
  [14.2, { is: 'between', least: 1, most: 2 }],
  [9, null],
  [0, null],
])('%f g beside a pump of 10.064 g', (grams, presses) => {
  expect(pressesFor(aLine({ targetGrams: grams }), grams, 10.064)).toEqual(presses)
})

test('without a press that was measured nothing is said', () => {
  expect(pressesFor(aLine(), 100, null)).toBeNull()
})

/* One and a half presses of 8 ml at 1.258 g/ml are 15.096 g; of a pump that gives 10 ml since, 12.58 g a press, 1.2 of them. */
test('what was typed in presses stays what was typed, as long as the pump gives as much', () => {
  const line = typed(1.5, 15.096)
  expect(pressesFor(line, 15.096, 10.064)).toEqual({ is: 'typed', least: 1.5, most: 1.5 })
  expect(pressesFor(line, 45.288, null)).toMatchObject({ is: 'typed', least: expect.closeTo(4.5, 9) })
  expect(pressesFor(line, 15.096, 12.58)).toEqual({ is: 'between', least: 1, most: 2 })
})
