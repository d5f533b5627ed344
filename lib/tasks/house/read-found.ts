import 'server-only'
import { holdsWords } from '@/lib/base/find-words'
import { findNamed } from '@/lib/db/search'
import type { Actor, World } from '../world'

/** One thing that was found, and how many more of its kind there are beyond those shown. */
export interface FoundOf<Line> {
  readonly lines: readonly Line[]
  readonly more: number
}

const SHOWN = 20

/**
 * What in the café's recipes, trials, panels and decisions holds these words? Newest first.
 *
 * Names are gone through one by one: accents and capitals are no matter of the database, which answers differently from
 * engine to engine.
 */
export async function readFound(world: World, actor: Actor, typed: string) {
  const holds = holdsWords(typed)
  const named = await findNamed(world.db, actor.cafeId)
  return {
    recipes: first(named.recipes, ({ name, note }) => holds(`${name} ${note ?? ''}`)),
    trials: first(named.trials, ({ number, name, recipe }) => holds(`${number} ${name} ${recipe.name}`)),
    panels: first(named.panels, ({ title, question, recipe }) => holds(`${title} ${question} ${recipe.name}`)),
    decisions: first(named.decisions, ({ reason, recipe, trial, panel }) =>
      holds([reason, recipe.name, trial?.name, panel?.title].join(' ')),
    ),
  }
}

function first<Line>(all: readonly Line[], wanted: (one: Line) => boolean): FoundOf<Line> {
  const found = all.filter(wanted)
  return { lines: found.slice(0, SHOWN), more: Math.max(0, found.length - SHOWN) }
}
