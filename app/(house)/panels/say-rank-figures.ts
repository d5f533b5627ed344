import { fixed } from '@/lib/base/number-format'
import type { TypedFigures } from '@/lib/forms/plan-figures-form'
import type { RankFigures } from '@/lib/tasks/plan/rank-figures'
import type { SaidFigures, SaidRehearsal } from './say-figures'

/** What a plan of an order comes to, in words. */
export function sayRankFigures(figures: RankFigures, { cups }: Pick<TypedFigures, 'cups'>): SaidFigures {
  const { tasters, share, fewest, perTasterMl, perCupMl } = figures
  const pairs = cups === null ? 0 : (cups * (cups - 1)) / 2
  return {
    lines: [
      ...(fewest === null ? ['Choose three to six cups: this panel puts them in order.'] : []),
      ...sayPlayed(figures),
      ...(tasters !== null && share !== null
        ? [`About ${tasters} tasters tell two named cups apart where ${share} of 100 put one above the other.`]
        : []),
      ...(fewest !== null ? [`${pairs} comparisons share the five per cent that may go wrong.`] : []),
      ...(perTasterMl !== null ? [`One taster drinks ${fixed(perTasterMl, 0)} ml.`] : []),
      ...(perCupMl !== null ? [`Make ${fixed(perCupMl, 0)} ml of each cup, spills and spares included.`] : []),
      'Reckoned for one best cup and others that are alike, orders after Plackett and Luce; the tasters by the exact sign test after Holm.',
    ],
    askRehearsal: false,
  }
}

function sayPlayed({ played, share, fewest }: RankFigures): string[] {
  if (played === null || share === null || fewest === null) return []
  const { seats, alone, panels } = played
  if (seats < fewest) return [`With ${seats} seats no order can tell two cups apart: it takes at least ${fewest}.`]
  return [
    `With ${seats} seats the chance that a best cup, which ${share} of 100 put above any other, stands above all is ${fixed(100 * alone, 0)} %, give or take ${giveOrTake(alone, panels)}: the plan was played ${fixed(panels, 0)} times.`,
  ]
}

/** Two simulation errors, in a hundred. */
const giveOrTake = (share: number, panels: number) => Math.ceil(200 * Math.sqrt((share * (1 - share)) / panels) - 1e-9)

/** The same as a hundred panels. */
export function sayRankRehearsal({ played, share }: RankFigures): SaidRehearsal {
  if (played === null || share === null)
    return { lines: ['Say the cups, the seats and the share first.'], hundred: null, figures: null }
  const found = Math.round(100 * played.alone)
  const wrong = Math.min(100 - found, Math.round(100 * played.misled))
  const hundred = { found, cannotTell: 100 - found - wrong, wrong }
  return {
    lines: [
      `If ${share} of 100 put the best cup above any other: of 100 panels like this about ${found} let it stand above all, ${hundred.cannotTell} cannot tell it from all others, ${wrong} put another above it.`,
      `Played ${fixed(played.panels, 0)} times with invented tasters, who order the cups after Plackett and Luce; give or take ${giveOrTake(played.alone, played.panels)} in a hundred.`,
    ],
    hundred,
    figures: null,
  }
}
