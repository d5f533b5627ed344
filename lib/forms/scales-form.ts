import * as z from 'zod'
import { number, words } from './fields'
import { DIVISION } from './number-fields'

const name = words('Name the scale.', 60).optional()
const division = number(DIVISION, {
  empty: 'How many grams lie between two numbers that it shows?',
  'too-much': 'A scale this coarse weighs no drink: 10 g at most.',
}).optional()

/** What a house weighs on: doses, and what is poured under the glass. Left empty: as usual. */
export const ScalesForm = z.object({
  doseName: name,
  doseDivision: division,
  pourName: name,
  pourDivision: division,
})
export type ScalesSent = z.infer<typeof ScalesForm>
