/**
 * A glass costed by hand; common practice, no source; currency neutral. Figures worked on paper to four decimals.
 */
import { expect, test } from 'vitest'
import { breakEvenGlasses, costPerGram, glassCost, netOfTax, priceForShare } from '@/lib/drink/cost'

const within = (got: number, wanted: number, reach = 0.00006) => expect(Math.abs(got - wanted)).toBeLessThan(reach)

const syrup = costPerGram(0.6, 950) // 500 g of sugar at 1.20/kg, cooked with water to 950 g
const milk = costPerGram(1.6, 354.88235 * 1.065) // a can of 12 US fl oz
const lines = [73.8 * syrup, 15 * costPerGram(18, 1000), 60 * 1.065 * milk, 200 * costPerGram(0.1, 1000)]
const ingredients = lines.reduce((a, b) => a + b, 0)
const cost = glassCost(ingredients, 0.03, 0.14)

test('the syrup costs its output, not its input', () => {
  within(1000 * syrup, 0.6316)
})

test('lines, waste and packaging come to 0.7653', () => {
  for (const [index, line] of [0.0466, 0.27, 0.2705, 0.02].entries()) within(lines[index] ?? 0, line)
  within(ingredients, 0.6071)
  within(cost, 0.7653)
})

test('at 3.50 net that is 21.9 %, 439 glasses pay 1200, and a quarter share asks 3.06', () => {
  within((100 * cost) / 3.5, 21.9, 0.05)
  within(3.5 - cost, 2.7347)
  expect(breakEvenGlasses(1200, 3.5 - cost)).toBe(439)
  within(priceForShare(cost, 0.25), 3.06, 0.005)
})

test('where 3.50 holds 12 % tax the share is 24.5 %', () => {
  within(netOfTax(3.5, 0.12), 3.125, 1e-9)
  within((100 * cost) / netOfTax(3.5, 0.12), 24.5, 0.05)
})

test('forgetting what the grounds keep understates coffee by a fifth', () => {
  within(0.27 / 150 / (0.27 / 120), 0.8, 1e-9)
})
