import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import type { TypedFigures } from '@/lib/forms/plan-figures-form'
import { planLimits } from '@/lib/panel/plan'
import type { Actor, World } from '../world'
import type { PlanQuestion, PlayedPlan } from './play-plan'
import { ALPHA, findSpread, planOf, POWER, trayOf, type Spread } from './read-plan-figures'
import { type NotPlayed, playInWorker, rehearsalDesk, type RehearsalDesk } from './rehearsal-desk'

const PANELS = 1000
const WAITING = 8
const LONGEST_MS = 60_000
/** As the result page reads a margin. */
const MARGIN_LEVEL = 0.9

export interface RehearsedPlanFigures extends PlayedPlan {
  readonly spread: Spread
}

const here = globalThis as typeof globalThis & { sipwrightRehearsals?: RehearsalDesk }

/** The one desk of this process; kept outside the module, which may be loaded more than once. */
function theDesk(): RehearsalDesk {
  here.sipwrightRehearsals ??= rehearsalDesk(playInWorker, { waiting: WAITING, longestMs: LONGEST_MS })
  return here.sipwrightRehearsals
}

/**
 * Plays the typed plan a thousand times through the code that reads a closed panel, in a thread of its own: phones score meanwhile.
 *
 * @param report  hears of a thread that broke off
 */
export async function rehearsePlan(
  world: World,
  actor: Actor,
  typed: TypedFigures,
  report: (error: unknown) => void,
): Promise<Result<RehearsedPlanFigures, NotPlayed | 'too-little'>> {
  const spread = await findSpread(world, actor, typed.recipe)
  const question = questionOf(typed, spread.sd)
  if (!question) return no('too-little')
  const played = await theDesk().ask(actor.userId, question, report)
  return played.ok ? ok({ ...played.value, spread }) : played
}

/** @returns null where too little is typed */
export function questionOf(typed: TypedFigures, sd: number): PlanQuestion | null {
  const { cups, seats, aim, difference, margin } = typed
  const each = trayOf(typed)
  const isAsGood = aim === 'as-good'
  const sought = isAsGood ? margin : difference
  if (cups === null || seats === null || each === null || sought === null) return null
  return {
    cups,
    seats,
    each,
    sd,
    // as good: what happens when the two are alike
    difference: isAsGood ? 0 : sought,
    plan: planOf(typed),
    level: 1 - ALPHA,
    margin: isAsGood ? sought : null,
    marginLevel: MARGIN_LEVEL,
    best: aim === 'best' ? { power: POWER, most: planLimits.seats.most } : null,
    panels: PANELS,
    seed: 1,
  }
}
