import 'server-only'
import { findClosingAnswers } from '@/lib/db/results'
import type { TypedFigures } from '@/lib/forms/plan-figures-form'
import { mlToPour, portionsPerCup } from '@/lib/panel/portions'
import type { PlanKind } from '@/lib/stats/liking/claim-plan'
import { pooledSpread } from '@/lib/stats/plan/pooled-spread'
import { tastersForAcceptance, tastersForNotWorse } from '@/lib/stats/plan/score-power'
import { readSpread } from './kept-spread'
import type { Actor, World } from '../world'

/** Points about a taster's own mean, and whose panels say so; 1.4 where nobody has tasted here yet. */
export interface Spread {
  readonly sd: number
  readonly from: 'recipe' | 'cafe' | 'assumed'
  readonly panels: number
}

/** What a plan comes to, as far as it is typed. */
export interface PlanFigures {
  readonly spread: Spread
  /** comparisons of the plan */
  readonly pairs: number | null
  /** tasters for a chance of four in five to find the planned difference, or to show it within the margin */
  readonly tasters: number | null
  /** the chance with the seats now typed */
  readonly power: number | null
  /** what one taster drinks, ml */
  readonly perTasterMl: number | null
  /** what is to be made of each cup, ml */
  readonly perCupMl: number | null
}

const ASSUMED_SD = 1.4
/** four times out of five */
export const POWER = 0.8
export const ALPHA = 0.05
/** The newest panels say how far apart tasters are today. */
const PANELS = 20

/** Works out a plan while it is typed. Nothing is read but what closed panels keep. */
export async function readPlanFigures(world: World, actor: Actor, typed: TypedFigures): Promise<PlanFigures> {
  const spread = await findSpread(world, actor, typed.recipe)
  const { seats, ml } = typed
  const each = trayOf(typed)
  return {
    spread,
    pairs: typed.cups && pairsOf(typed, typed.cups),
    ...powerOf(typed, spread.sd),
    perTasterMl: each !== null && ml !== null ? (each + (typed.twice ? 1 : 0)) * ml : null,
    perCupMl:
      each !== null && seats !== null && ml !== null && typed.cups !== null
        ? mlToPour(portionsPerCup({ seats, cups: typed.cups, cupsPerTaster: typed.perTaster }), ml)
        : null,
  }
}

/** Cups that one taster gets. */
export const trayOf = ({ cups, perTaster }: TypedFigures) => (cups === null ? null : Math.min(cups, perTaster ?? cups))

/** What is compared with what, as it is typed. */
export const planOf = ({ aim, kind }: TypedFigures): PlanKind =>
  aim === 'best' || kind === 'all-pairs' ? 'all' : kind === 'against-house' ? 'against' : 'pair'

function pairsOf(typed: TypedFigures, cups: number): number {
  const plan = planOf(typed)
  return plan === 'all' ? (cups * (cups - 1)) / 2 : plan === 'against' ? cups - 1 : 1
}

/**
 * Of tasters who get M of K cups each a difference knows as much as of n (M − 1)/(K − 1) who get all: the efficiency of balanced
 * incomplete blocks (Cochran and Cox 1957, section 11.1).
 */
function powerOf(typed: TypedFigures, sd: number): Pick<PlanFigures, 'tasters' | 'power'> {
  const { cups, seats, aim, difference, margin } = typed
  const each = trayOf(typed)
  const sought = aim === 'as-good' ? margin : difference
  if (cups === null || each === null || sought === null) return { tasters: null, power: null }
  const share = (each - 1) / (cups - 1)
  const question = { sd, cups, plan: planOf(typed), alpha: ALPHA }
  const ask = (toReach: { power: number } | { n: number }) =>
    aim === 'as-good'
      ? tastersForNotWorse({ ...question, margin: sought }, toReach)
      : tastersForAcceptance({ ...question, difference: sought }, toReach)
  const whole = seats === null ? 0 : Math.floor(seats * share)
  return {
    tasters: Math.ceil(ask({ power: POWER }).n / share - 1e-9),
    power: whole < 2 ? null : ask({ n: whole }).power,
  }
}

/** How far one taster's scores lie apart: by the panels of this drink, else of this café, else assumed. */
export async function findSpread(world: World, actor: Actor, recipeId: string): Promise<Spread> {
  for (const from of ['recipe', 'cafe'] as const) {
    const texts = await findClosingAnswers(world.db, actor.cafeId, from === 'recipe' ? recipeId : null, PANELS)
    const known = texts.flatMap((text) => readSpread(text) ?? [])
    const pooled = pooledSpread(known)
    if (pooled) return { sd: pooled.sd, from, panels: known.length }
  }
  return { sd: ASSUMED_SD, from: 'assumed', panels: 0 }
}
