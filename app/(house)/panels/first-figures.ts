import { PlanFiguresForm } from '@/lib/forms/plan-figures-form'
import { readPlanFigures } from '@/lib/tasks/plan/read-plan-figures'
import type { Actor, World } from '@/lib/tasks/world'
import type { Draft } from '@/app/ui/act-form'
import { readChoiceFigures } from '@/lib/tasks/plan/choice-figures'
import { readDifferenceFigures } from '@/lib/tasks/plan/difference-figures'
import { sayDifferenceFigures } from './say-difference-figures'
import { sayChoiceFigures } from './say-choice-figures'
import { readRankFigures } from '@/lib/tasks/plan/rank-figures'
import { sayRankFigures } from './say-rank-figures'
import { sayFigures, type SaidFigures } from './say-figures'

/** What a plan comes to before anything is typed, so that it stands there without a script, too. */
export async function firstFigures(world: World, actor: Actor, recipeId: string, draft: Draft): Promise<SaidFigures> {
  const text = (name: string) => {
    const value = draft[name]
    return typeof value === 'string' ? value : ''
  }
  const cups = draft['cups']
  const typed = PlanFiguresForm.parse({
    recipe: recipeId,
    cups: String(Array.isArray(cups) ? cups.length : 0),
    perTaster: text('cupsPerTaster'),
    seats: text('seatCount'),
    asks: text('kind'),
    share: text('share'),
    above: text('above'),
    ...oddOf(draft),
    aim: text('aim'),
    kind: text('primaryKind'),
    difference: text('smallestDifference'),
    margin: text('notWorseMargin'),
    ml: text('sampleMl'),
    twice: text('duplicate'),
  })
  if (typed.asks === 'rank') return sayRankFigures(readRankFigures(typed), typed)
  if (typed.asks === 'difference') return sayDifferenceFigures(readDifferenceFigures(typed), typed)
  if (typed.asks === 'choice') return sayChoiceFigures(readChoiceFigures(typed), typed)
  return sayFigures(await readPlanFigures(world, actor, typed), typed)
}

/** Of a plan that asks whether two can be told apart, as its query has it. */
function oddOf({ odd }: Draft) {
  const typed: Readonly<Record<string, unknown>> = typeof odd === 'object' && odd !== null ? { ...odd } : {}
  return {
    oddAim: typed['aim'],
    oddAsks: typed['asks'],
    oddProtocol: typed['protocol'],
    oddEach: typed['each'],
    oddShare: typed['share'],
  }
}
