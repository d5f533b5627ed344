import { lost } from '@/lib/base/lost'
import type { DegreesMethod, FTest } from '../model/fixed-effects'
import { likingModel, type Repeats } from './liking-model'
import { factorContrasts, marginalMean } from './marginal-mean'
import type { ScoreTable } from './score-table'

export interface OrderEffects {
  readonly position: (FTest & { readonly means: readonly number[] }) | null
  readonly carryOver: FTest | null
  readonly notes: readonly string[]
}

/**
 * Do scores depend on when a cup was tasted, or on which cup came before?
 *
 * Position joins the model as a factor; for carry-over the cup tasted before joins too, summing to zero and 0 where none
 * came before. `means` are the marginal means of the positions.
 *
 * Source   Jones and Kenward (2014), Design and Analysis of Cross-Over Trials, 3rd ed., chapter 5; MacFie et al. (1989),
 *          J. Sens. Stud. 4(2), 129–148.
 * Checked  test/reference/acceptance-order-effects.test.ts
 * Limits   read beside the cups' verdicts, not as a gate before them; only the cup immediately before is looked at.
 */
export function orderEffects(table: ScoreTable, repeats: Repeats, method: DegreesMethod): OrderEffects {
  if (table.positions.length === 0) return { position: null, carryOver: null, notes: [] }
  if (table.positions.length === 1 || table.cups.length === 1) {
    return { position: null, carryOver: null, notes: ['Position: no answer with one position or one cup.'] }
  }

  const notes: string[] = []
  const unknown = table.positionOf.filter((place) => place < 0).length
  if (unknown > 0) notes.push(`Position: ${unknown} scores without a position are left out of the order analyses.`)

  const placed = likingModel(table, repeats, method, { position: true, carryOver: false })
  let position: OrderEffects['position'] = null
  if (placed.effects) {
    const means = table.positions.map((_, level) => {
      const weights = marginalMean(placed.design, 'position', level)
      return table.centre + weights.reduce((sum, weight, j) => sum + weight * (placed.beta[j] ?? lost()), 0)
    })
    position = { ...placed.effects.test(factorContrasts(placed.design, placed.gram, 'position')), means }
  } else notes.push(`Position: no test, ${WHY[placed.why ?? 'saturated']}.`)

  if (table.orderUnclear) {
    notes.push('Carry-over: no test, a taster has two cups at the same position.')
    return { position, carryOver: null, notes }
  }
  const carried = likingModel(table, repeats, method, { position: true, carryOver: true })
  if (!carried.effects) notes.push(`Carry-over: no test, ${WHY[carried.why ?? 'saturated']}.`)
  const carryOver = carried.effects?.test(factorContrasts(carried.design, carried.gram, 'previous')) ?? null
  return { position, carryOver, notes }
}

const WHY = {
  aliased: 'the order cannot be told apart from the cups or sessions',
  saturated: 'no degrees of freedom are left for the residual',
  'no residual': 'the model leaves no residual',
}
