import 'server-only'
import { stringify } from 'csv-stringify/sync'
import { findPanel, type PanelRecord } from '@/lib/db/panels'
import { questionOf, tickedWords } from '@/lib/panel/question'
import { isUnblinded, findStage } from '@/lib/panel/plan'
import { findClosedServings, inHeadline, type ClosedServing } from './closed-servings'
import { countedScore, resultCups } from './panel-answers'
import type { Actor, World } from '../world'

const safe = { header: true, escape_formulas: true, record_delimiter: 'windows' } as const

/** What is in the scores file, as other analyses want it; what does not count is not in it. */
interface Counted {
  readonly panel: PanelRecord
  readonly servings: readonly ClosedServing[]
  /** the letter of a serving's cup */
  letterOf(serving: ClosedServing): string
}

/**
 * One line per serving with liking and everything that was asked on steps or a line, each question a column of its name: what the
 * `jar` analysis reads.
 * @returns null while the panel is not closed
 */
export async function exportJustRight(world: World, actor: Actor, panelId: string): Promise<string | null> {
  const counted = await findCounted(world, actor, panelId)
  if (!counted) return null
  const [liking, ...further] = counted.panel.attributes
  const asked = further.filter(({ kind }) => kind !== 'words')
  const lines = counted.servings.map((serving) => [
    serving.seat.number,
    counted.letterOf(serving),
    serving.cup.isDuplicate ? 2 : 1,
    countedScore(serving, liking?.id ?? '') ?? '',
    ...asked.map(({ id }) => countedScore(serving, id) ?? ''),
  ])
  return stringify(lines, { ...safe, columns: ['taster', 'cup', 'replicate', 'liking', ...asked.map(columnOf)] })
}

/** The names of the lead columns are taken. */
export const columnOf = ({ name }: { readonly name: string }): string =>
  ['taster', 'cup', 'replicate', 'liking'].includes(name.toLowerCase()) ? `${name} (asked)` : name

/** One line per serving and word, 1 where it was ticked: what the `check` analysis reads. @returns null while the panel is not closed */
export async function exportWords(world: World, actor: Actor, panelId: string): Promise<string | null> {
  const counted = await findCounted(world, actor, panelId)
  if (!counted) return null
  const asked = counted.panel.attributes.map((one) => ({ id: one.id, question: questionOf(one) }))
  const lines = counted.servings
    .filter(({ cup }) => !cup.isDuplicate)
    .flatMap((serving) =>
      asked.flatMap(({ id, question }) => {
        const value = countedScore(serving, id)
        if (question.kind !== 'words' || value === null) return []
        const ticked = tickedWords(question, value)
        return question.words.map((term) => [
          serving.seat.number,
          counted.letterOf(serving),
          question.name,
          term,
          ticked.includes(term) ? 1 : 0,
        ])
      }),
    )
  return stringify(lines, { ...safe, columns: ['taster', 'cup', 'question', 'term', 'checked'] })
}

async function findCounted(world: World, actor: Actor, panelId: string): Promise<Counted | null> {
  const panel = await findPanel(world.db, actor.cafeId, panelId)
  if (!panel || !isUnblinded(findStage(panel.stage) ?? 'draft')) return null
  const letters = new Map(resultCups(panel).map(({ trialId, letter }) => [trialId, letter]))
  const servings = inHeadline(await findClosedServings(world.db, actor.cafeId, panelId))
  return {
    panel,
    servings: servings.filter(({ seat, scores }) => seat.takenAt !== null || scores.length > 0),
    letterOf: ({ cup }) => letters.get(cup.trialId) ?? '',
  }
}
