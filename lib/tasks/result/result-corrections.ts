import 'server-only'
import { readSetAnswer } from '@/lib/panel/kinds/set-kind'
import { questionOf, sayAnswer, type QuestionColumns } from '@/lib/panel/question'
import type { ClosedServing } from './closed-servings'
import type { ResultCup } from './panel-answers'
import { andList } from './say-verdict'

/**
 * What was typed in from paper and then corrected, and comments that were written over on another phone: what stood, and what
 * stands now.
 */
export interface Correction {
  readonly seat: number
  readonly letter: string
  /** the aspect asked for, "comment" or "skipped" */
  readonly what: string
  readonly stood: string
  /** null: blank now */
  readonly stands: string | null
  /** where it was replaced: at the house’s desk, or on the phone that went on with the seat */
  readonly from: 'desk' | 'phone'
  /** the user who corrected it; null on a phone */
  readonly byId: string | null
  readonly at: Date
}

type Asked = QuestionColumns & { readonly id: string }

/** Every correction of a closed panel, in the order in which they were made. */
export function correctionsOf(
  servings: readonly ClosedServing[],
  cups: readonly ResultCup[],
  attributes: readonly Asked[],
): readonly Correction[] {
  const all = servings.flatMap((serving) => {
    const letter = cups.find((cup) => cup.trialId === serving.cup.trialId)?.letter ?? '?'
    return serving.replaced.map((one) => ({
      seat: serving.seat.number,
      letter,
      ...changed(serving, one, attributes),
      from: one.source === 'phone' ? ('phone' as const) : ('desk' as const),
      byId: one.replacedById,
      at: one.replacedAt,
    }))
  })
  const ofSets = setsOf(servings).flatMap((set) => setCorrections(set, cups, attributes))
  return [...all, ...ofSets].toSorted((a, b) => a.at.getTime() - b.at.getTime() || a.seat - b.seat)
}

function changed(
  serving: ClosedServing,
  { attributeId, value, comment, skipReason }: ClosedServing['replaced'][number],
  attributes: readonly Asked[],
): Pick<Correction, 'what' | 'stood' | 'stands'> {
  if (attributeId !== null) {
    const now = [...serving.scores, ...serving.apart].find((score) => score.attributeId === attributeId)?.value ?? null
    const asked = attributes.find(({ id }) => id === attributeId)
    const say = (one: number) => (asked ? sayAnswer(questionOf(asked), one) : String(one))
    return {
      what: asked?.name ?? '?',
      stood: value === null ? '' : say(value),
      stands: now === null ? null : say(now),
    }
  }
  if (comment !== null) return { what: 'comment', stood: comment, stands: serving.comment || null }
  return { what: 'skipped', stood: skipReason ?? '', stands: serving.skippedAt ? (serving.skipReason ?? '') : null }
}

/** Each set once, with its servings. */
function setsOf(servings: readonly ClosedServing[]) {
  const sets = new Map<string, ClosedServing[]>()
  for (const one of servings) {
    if (!one.set) continue
    const key = `${one.seat.number} ${one.set.number}`
    sets.set(key, [...(sets.get(key) ?? []), one])
  }
  return [...sets.values()]
}

function setCorrections(
  servings: readonly ClosedServing[],
  cups: readonly ResultCup[],
  attributes: readonly Asked[],
): readonly Correction[] {
  const letterOf = (one: ClosedServing | undefined) =>
    cups.find((cup) => cup.trialId === one?.cup.trialId)?.letter ?? '?'
  const say = (text: string, byCode: boolean) => {
    const chosen = (readSetAnswer(text) ?? []).map((at) => servings.find(({ position }) => position === at))
    const letters = chosen.map((one) => (byCode ? (one?.code ?? '?') : letterOf(one)))
    return letters.length === 0 ? 'no preference' : letters.join(', ')
  }
  const [first] = servings
  const set = first?.set
  if (!set) return []
  const stands = [...set.answers, ...set.apart]
  return set.uncounted
    .filter(({ why }) => why === 'replaced')
    .map(({ attributeId, answer, uncountedAt, uncountedById }) => {
      const now = stands.find((one) => one.attributeId === attributeId)
      const asked = attributes.find(({ id }) => id === attributeId)
      // of a cup that stands there twice its letter does not tell which
      const byCode = asked?.kind === 'odd'
      return {
        seat: first.seat.number,
        letter: andList([...new Set(servings.map(letterOf))].toSorted()),
        what: asked?.name ?? '?',
        stood: say(answer, byCode),
        stands: now ? say(now.answer, byCode) : null,
        from: 'desk',
        byId: uncountedById,
        at: uncountedAt,
      }
    })
}
