/**
 * What stands in for a missing ingredient.
 * Made      make/instead-of.R: R 4.2.2, quadprog 1.5.8 (Goldfarb and Idnani), 120 choices of three, and a shelf of twelve in its turn.
 *           Rows of the shelf are USDA Standard Reference, as printed. Misfit within 1e-6, shares within 1e-5.
 * Computed  Pearson's square on fat alone, share of the second = (f − a)/(b − a), worked outside this code: half-and-half, 11.5 % fat,
 *           of milk with 3.25 % and cream with 37 % takes 24.4 % of cream; of evaporated milk with 7.56 %, 13.4 %. Common practice, no source
 */
import { expect, test } from 'vitest'
import { insteadOf, type Candidate, type Makeup } from '@/lib/drink/instead-of'
import { expectNear } from '../support/near'
import made from './data/instead-of.json'

const byFat = (fat: number): Makeup => ({ fat, sugars: null, solids: null, protein: null })

test.each([
  ['whole milk', 3.25, 24.4],
  ['evaporated milk', 7.56, 13.4],
])('half-and-half of %s and heavy cream by Pearson’s square', (name, fat, percent) => {
  const shelf = [
    { id: name, makeup: byFat(fat) },
    { id: 'heavy cream', makeup: byFat(37) },
  ]
  const [best] = insteadOf(byFat(11.5), shelf, { water: false }).standIns
  const cream = best?.parts.find(({ id }) => id === 'heavy cream')?.share
  expect((100 * (cream ?? 0)).toFixed(1)).toBe(percent.toFixed(1))
  expectNear(best?.misfit, 0, 1e-9)
})

test.each(made.cases.map((one, place) => ({ ...one, place })))('choice $place of three agrees with quadprog', (one) => {
  const candidates = one.parts.map((makeup, i): Candidate => ({ id: String(i), makeup }))
  const [best] = insteadOf(one.target, candidates, { water: one.water, gain: 0 }).standIns
  expectNear(best?.misfit, one.misfit, 1e-6)
  one.shares.forEach((share, i) => expectNear(best?.parts.find(({ id }) => id === String(i))?.share ?? 0, share, 1e-5))
})

test.each(made.whole)(
  '$name from the rest of the shelf is as near as the nearest of every three',
  ({ name, misfit }) => {
    const target = made.shelf.find(({ id }) => id === name)
    const rest = made.shelf.flatMap(({ id, ...makeup }) => (id === name ? [] : [{ id, makeup }]))
    if (!target) throw new Error(name)
    const [best] = insteadOf(target, rest, { water: true, gain: 0 }).standIns
    expectNear(best?.misfit, misfit, 1e-6)
  },
)
