import { fixed } from '@/lib/base/number-format'
import type { TypedFigures } from '@/lib/forms/plan-figures-form'
import type { ChoiceFigures } from '@/lib/tasks/plan/choice-figures'
import type { SaidFigures, SaidRehearsal } from './say-figures'

const split = (share: number) => `${share} to ${100 - share}`

/** What a plan of two cups comes to, in words. */
export function sayChoiceFigures(figures: ChoiceFigures, { cups }: Pick<TypedFigures, 'cups'>): SaidFigures {
  const { tasters, withSeats, share, perTasterMl, perCupMl } = figures
  return {
    lines: [
      ...(cups === 2 ? [] : ['Choose two cups: this panel is of two.']),
      ...(tasters !== null && share !== null
        ? [`About ${tasters} who prefer one find ${split(share)}, four times out of five.`]
        : []),
      ...(withSeats === null ? [] : sayWithSeats(withSeats)),
      ...(perTasterMl !== null ? [`One taster drinks ${fixed(perTasterMl, 0)} ml.`] : []),
      ...(perCupMl !== null ? [`Make ${fixed(perCupMl, 0)} ml of each cup, spills and spares included.`] : []),
      'Reckoned by the exact two-sided test, for tasters who prefer one; whoever has no preference comes on top.',
    ],
    askRehearsal: false,
  }
}

function sayWithSeats({ seats, found, wrong, critical }: NonNullable<ChoiceFigures['withSeats']>): string[] {
  if (critical === null) return [`With ${seats} seats no count can tell: it takes at least six who prefer one.`]
  return [
    `With ${seats} seats the chance is ${fixed(100 * (found + wrong), 0)} %: it takes ${critical} of ${seats} for one of the two.`,
  ]
}

/** The plan as a hundred panels: the exact test gives the shares, so that nothing has to be played. */
export function sayChoiceRehearsal({ withSeats, share }: ChoiceFigures): SaidRehearsal {
  if (withSeats === null || share === null)
    return { lines: ['Say the seats and the share first.'], hundred: null, figures: null }
  const found = Math.round(100 * withSeats.found)
  const wrong = Math.min(100 - found, Math.round(100 * withSeats.wrong))
  const hundred = { found, cannotTell: 100 - found - wrong, wrong }
  return {
    lines: [
      `If one is preferred by ${split(share)}: of 100 panels like this about ${found} find it, ${hundred.cannotTell} cannot tell, ${wrong} name the wrong one.`,
      'By the exact test itself, not played: with two cups every outcome can be counted.',
    ],
    hundred,
    figures: null,
  }
}
