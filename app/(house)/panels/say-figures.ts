import type { TypedFigures as Typed } from '@/lib/forms/plan-figures-form'
import type { PlanFigures } from '@/lib/tasks/plan/read-plan-figures'
import type { RehearsedPlanFigures, rehearsePlan } from '@/lib/tasks/plan/rehearse-plan'
import { fixed } from '@/lib/base/number-format'

/** Lines beside the plan form. */
export interface SaidFigures {
  readonly lines: readonly string[]
  /** a rehearsal would say it better than the formula does */
  readonly askRehearsal: boolean
}

/** A rehearsal in words, and as how many of a hundred panels. */
export interface SaidRehearsal {
  readonly lines: readonly string[]
  /** of a hundred: found, cannot tell, named the wrong one; null where there is nothing to draw */
  readonly hundred: { readonly found: number; readonly cannotTell: number; readonly wrong: number } | null
  /** in place of the lines beside the form; null where they stand */
  readonly figures: readonly string[] | null
}

const points = (value: number) => `${fixed(value, 1)} ${value === 1 ? 'point' : 'points'}`

/** @param played  a rehearsal of the same plan: the best is planned by the chance that it stands alone, which no formula gives */
export function sayFigures(
  figures: PlanFigures,
  typed: Typed,
  played: RehearsedPlanFigures | null = null,
): SaidFigures {
  const { perTasterMl, perCupMl, pairs, power } = figures
  const chance = played && typed.aim === 'best' ? sayBest(played, typed) : sayFormula(figures, typed)
  return {
    lines: [
      ...chance,
      ...(pairs !== null && pairs > 1 ? [`${pairs} comparisons share the five per cent that may go wrong.`] : []),
      ...(perTasterMl !== null ? [`One taster drinks ${fixed(perTasterMl, 0)} ml.`] : []),
      ...(perCupMl !== null ? [`Make ${fixed(perCupMl, 0)} ml of each cup, spills and spares included.`] : []),
      saySpread(figures.spread),
    ],
    askRehearsal: played === null && typed.aim === 'best' && power !== null,
  }
}

function sayFormula({ tasters, power }: PlanFigures, typed: Typed): string[] {
  const sought =
    typed.aim === 'as-good'
      ? typed.margin && `show two cups that are alike to be within ${points(typed.margin)}`
      : typed.difference && `find a difference of ${points(typed.difference)} between two named cups`
  return [
    ...(tasters !== null && sought ? [`About ${tasters} tasters ${sought}, four times out of five.`] : []),
    ...(power !== null && typed.seats !== null
      ? [`With ${typed.seats} seats the chance is ${fixed(100 * power, 0)} %.`]
      : []),
  ]
}

/** By how many tasters, and with these seats how likely, one cup is told from every other. */
function sayBest({ best, rehearsed }: RehearsedPlanFigures, typed: Typed): string[] {
  const { cups, seats, difference } = typed
  const { aboveAll, panels } = rehearsed
  const each = Math.min(cups ?? 0, typed.perTaster ?? cups ?? 0)
  const sought = `one cup that is ${points(difference ?? 0)} better than all others`
  return [
    ...(best ? [sayTasters(best, sought, cups === null ? 1 : (each - 1) / (cups - 1))] : []),
    ...(aboveAll !== null && seats !== null
      ? [
          `With ${seats} seats the chance is ${fixed(100 * aboveAll, 0)} %, give or take ${giveOrTake(aboveAll, panels)}: the plan was played ${fixed(panels, 0)} times.`,
        ]
      : []),
  ]
}

/** @param share  what a taster of some of the cups knows of what a taster of all of them does */
function sayTasters(
  { n, low, high, most }: NonNullable<RehearsedPlanFigures['best']>,
  sought: string,
  share: number,
): string {
  const tasters = (whole: number) => fixed(Math.ceil(whole / share - 1e-9), 0)
  if (n === null || low === null)
    return `It takes more than ${tasters(most)} tasters before ${sought} stands alone, four times out of five.`
  const between = high === null ? `${tasters(low)} or more` : `${tasters(low)} to ${tasters(high)}`
  const blocks = share < 1 ? ', reckoned from tasters of all cups' : ''
  return `With about ${tasters(n)} tasters ${sought} stands alone, four times out of five (${between}, as far as a rehearsal tells${blocks}).`
}

/** Two simulation errors, in a hundred. */
const giveOrTake = (share: number, panels: number) => Math.ceil(200 * Math.sqrt((share * (1 - share)) / panels) - 1e-9)

function saySpread({ sd, from, panels }: PlanFigures['spread']): string {
  const spread = `${fixed(sd, 1)} points about each taster’s own mean`
  if (from === 'assumed') return `Reckoned with a spread of ${spread}, as nobody has tasted here yet; common practice.`
  const whose = from === 'recipe' ? 'of this drink' : 'of this café'
  return `Reckoned with the spread of ${panels} closed ${panels === 1 ? 'panel' : 'panels'} ${whose}: ${spread}.`
}

type Answer = Awaited<ReturnType<typeof rehearsePlan>>

const NOT_PLAYED: Record<Extract<Answer, { ok: false }>['reason'], string> = {
  'too-little': 'Say the cups, the seats and the difference first.',
  overtaken: 'A newer question of yours took the place of this one.',
  'too-many': 'Too many plans wait to be rehearsed. Try again in a moment.',
  'too-long':
    'The rehearsal took longer than a minute and was given up. Fewer seats, or every cup for everybody, go faster.',
  'broke-off':
    'The rehearsal broke off; what happened stands in the café’s log. The plan itself is untouched. Try again, or plan by the figures above.',
}

export function sayRehearsal(answer: Answer, typed: Typed, figures: PlanFigures): SaidRehearsal {
  if (!answer.ok) return { lines: [NOT_PLAYED[answer.reason]], hundred: null, figures: null }
  const { rehearsed, spread } = answer.value
  const hundred = hundredOf(rehearsed, typed.aim)
  const { words, question } = wordsOf(typed)
  return {
    lines: [
      `If ${question}: of 100 panels like this about ${hundred.found} ${words.found}, ${hundred.cannotTell} ${words.cannotTell}, ${hundred.wrong} ${words.wrong}.`,
      `Played ${fixed(rehearsed.panels, 0)} times with a spread of ${fixed(spread.sd, 1)} points; give or take ${giveOrTake(hundred.found / 100, rehearsed.panels)} in a hundred.`,
    ],
    hundred,
    figures: typed.aim === 'best' ? sayFigures(figures, typed, answer.value).lines : null,
  }
}

function wordsOf({ aim, difference }: Typed) {
  const better = `${points(difference ?? 0)} better`
  const words = { found: 'find it', cannotTell: 'cannot tell', wrong: 'name the wrong one' }
  switch (aim) {
    case 'best':
      return {
        question: `one cup is ${better} than all others`,
        words: {
          found: 'let it stand alone',
          cannotTell: 'cannot tell it from all others',
          wrong: 'name another one better',
        },
      }
    case 'better':
      return { question: `the new one is ${better}`, words }
    case 'as-good':
      return { question: 'two cups are alike', words: { ...words, found: 'show that they are as good' } }
  }
}

/** Whole panels of a hundred that add up. */
function hundredOf({ found, aboveAll, beaten, wrong, notWorse }: RehearsedPlanFigures['rehearsed'], aim: Typed['aim']) {
  const right = aim === 'as-good' ? notWorse : aim === 'best' ? aboveAll : found
  const first = Math.round(100 * (right ?? 0))
  const misled = Math.min(100 - first, Math.round(100 * (aim === 'best' ? beaten : wrong)))
  return { found: first, cannotTell: 100 - first - misled, wrong: misled }
}
