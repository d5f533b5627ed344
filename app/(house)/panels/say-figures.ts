import type { TypedFigures as Typed } from '@/lib/forms/plan-figures-form'
import type { PlanFigures, rehearsePlan } from '@/lib/tasks/plan/read-plan-figures'
import { fixed } from '@/lib/base/number-format'

/** Lines beside the plan form. */
export interface SaidFigures {
  readonly lines: readonly string[]
}

/** A rehearsal in words, and as how many of a hundred panels. */
export interface SaidRehearsal {
  readonly lines: readonly string[]
  /** of a hundred: found, cannot tell, named the wrong one; null where there is nothing to draw */
  readonly hundred: { readonly found: number; readonly cannotTell: number; readonly wrong: number } | null
}

const points = (value: number) => `${fixed(value, 1)} ${value === 1 ? 'point' : 'points'}`

export function sayFigures(figures: PlanFigures, typed: Typed): SaidFigures {
  const { tasters, power, perTasterMl, perCupMl, pairs } = figures
  const sought =
    typed.aim === 'as-good'
      ? typed.margin && `show two cups that are alike to be within ${points(typed.margin)}`
      : typed.difference && `find a difference of ${points(typed.difference)} between two named cups`
  return {
    lines: [
      ...(tasters !== null && sought ? [`About ${tasters} tasters ${sought}, four times out of five.`] : []),
      ...(power !== null && typed.seats !== null
        ? [`With ${typed.seats} seats the chance is ${fixed(100 * power, 0)} %.`]
        : []),
      ...(pairs !== null && pairs > 1 ? [`${pairs} comparisons share the five per cent that may go wrong.`] : []),
      ...(perTasterMl !== null ? [`One taster drinks ${fixed(perTasterMl, 0)} ml.`] : []),
      ...(perCupMl !== null ? [`Make ${fixed(perCupMl, 0)} ml of each cup, spills and spares included.`] : []),
      saySpread(figures.spread),
    ],
  }
}

function saySpread({ sd, from, panels }: PlanFigures['spread']): string {
  const spread = `${fixed(sd, 1)} points about each taster’s own mean`
  if (from === 'assumed') return `Reckoned with a spread of ${spread}, as nobody has tasted here yet; common practice.`
  const whose = from === 'recipe' ? 'of this drink' : 'of this café'
  return `Reckoned with the spread of ${panels} closed ${panels === 1 ? 'panel' : 'panels'} ${whose}: ${spread}.`
}

export function sayRehearsal(answer: Awaited<ReturnType<typeof rehearsePlan>>, typed: Typed): SaidRehearsal {
  if (answer === null) return { lines: ['Say the cups, the seats and the difference first.'], hundred: null }
  if (answer === 'busy') return { lines: ['Another plan is being rehearsed. Try again in a moment.'], hundred: null }
  const { rehearsed, spread } = answer
  const hundred = hundredOf(rehearsed, typed.aim)
  const found = typed.aim === 'as-good' ? 'show that they are as good' : 'find it'
  const error = Math.ceil(200 * Math.sqrt(((hundred.found / 100) * (1 - hundred.found / 100)) / rehearsed.panels))
  const question =
    typed.aim === 'as-good'
      ? 'two cups are alike'
      : typed.aim === 'best'
        ? `one cup is ${points(typed.difference ?? 0)} better than all others`
        : `the new one is ${points(typed.difference ?? 0)} better`
  return {
    lines: [
      `If ${question}: of 100 panels like this about ${hundred.found} ${found}, ${hundred.cannotTell} cannot tell, ${hundred.wrong} name the wrong one.`,
      ...(typed.aim === 'best' && rehearsed.namedBest !== null
        ? [`In about ${fixed(100 * rehearsed.namedBest, 0)} the best stands alone; in the others it is told from some.`]
        : []),
      `Played ${fixed(rehearsed.panels, 0)} times with a spread of ${fixed(spread.sd, 1)} points; give or take ${error} in a hundred.`,
    ],
    hundred,
  }
}

/** Whole panels of a hundred that add up. */
function hundredOf(
  { found, wrong, notWorse }: { readonly found: number; readonly wrong: number; readonly notWorse: number | null },
  aim: Typed['aim'],
) {
  const first = Math.round(100 * (aim === 'as-good' ? (notWorse ?? 0) : found))
  const misled = Math.min(100 - first, Math.round(100 * wrong))
  return { found: first, cannotTell: 100 - first - misled, wrong: misled }
}
