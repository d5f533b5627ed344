import { intensityEnds, justRightSteps, type Question } from './question'
import type { Protocol } from './kinds/difference-sets'
import type { SeatGone } from './who-may-taste'

// The only file in which a code may meet a trial; who sees what at which stage.

/** What a taster's phone may know of one serving: where it comes in this seat's order, the code on it, its own answers. */
export type BlindServing = {
  /** 1 is tasted first */
  readonly position: number
  /** three digits, this serving's own */
  readonly code: string
  readonly seen: boolean
  readonly locked: boolean
  readonly skipped: boolean
  readonly comment: string
  readonly commentRevision: number
  /** the house has a comment of before this phone went on with the seat; its words stay there */
  readonly commentKept: boolean
  /** one place per attribute of the panel, in its order; null = not scored, or the cup is done */
  readonly answers: readonly (BlindAnswer | null)[]
}

/** How a question is asked at this seat; the order of words is the seat's own, and stays. */
export type BlindAsk =
  | { readonly kind: 'liking' }
  | { readonly kind: 'steps'; readonly steps: readonly string[] }
  | { readonly kind: 'line'; readonly low: string; readonly high: string }
  | { readonly kind: 'words'; readonly words: readonly { readonly place: number; readonly word: string }[] }
  /** about a set: which one; none: “no preference” may be said */
  | { readonly kind: 'choose'; readonly none: boolean }
  /** about a set: can it be told? by which method, and what one has more of, where that is asked */
  | { readonly kind: 'odd'; readonly protocol: Protocol; readonly property: string | null }
  /** about a set: in which order */
  | { readonly kind: 'rank' }

/** One step of the scale as this seat gave it; a higher revision is newer. */
export type BlindAnswer = { readonly value: number; readonly revision: number }

/** What a phone may know of servings that are answered together: which places of its own order, and its own answers. */
export type BlindSet = {
  /** 1 is tasted first */
  readonly number: number
  /** of its servings, in the order of tasting */
  readonly positions: readonly number[]
  readonly locked: boolean
  readonly skipped: boolean
  /** one place per question about sets, in the panel's order; null = not answered, or the set is done */
  readonly answers: readonly (BlindSetAnswer | null)[]
}

/** Positions of servings at this seat; what their order says is the question's. A higher revision is newer. */
export type BlindSetAnswer = { readonly answer: readonly number[]; readonly revision: number }

/** Everything a taster's phone is ever told about its seat. */
export type SeatState = {
  /** names this browser's turn at this seat; an answer from another turn is refused. Opens nothing. */
  readonly sitting: string
  readonly seat: number
  readonly title: string
  readonly open: boolean
  /** why nothing more is taken from this phone; it is told none of its cups then */
  readonly gone: SeatGone | null
  readonly attributes: readonly string[]
  /** how each of them is asked */
  readonly asks: readonly BlindAsk[]
  /** words of the scale; the first stands for 1 */
  readonly scale: readonly string[]
  readonly cups: readonly BlindServing[]
  /** absent where each cup is answered by itself */
  readonly sets?: readonly BlindSet[]
}

/** A set as it is stored, as far as a phone may ask for it. */
export type StoredSet = {
  readonly number: number
  readonly lockedAt: Date | null
  readonly skippedAt: Date | null
  readonly positions: readonly number[]
  readonly answers: readonly {
    readonly answer: readonly number[]
    readonly revision: number
    readonly attributePosition: number
  }[]
}

/** A serving as it is stored, as far as a phone may ask for it: no cup, no trial, no id. */
export type StoredServing = {
  readonly position: number
  readonly code: string
  readonly codeSeenAt: Date | null
  readonly lockedAt: Date | null
  readonly skippedAt: Date | null
  readonly comment: string | null
  readonly commentAt: Date | null
  readonly commentRevision: number
  readonly scores: readonly { readonly value: number; readonly revision: number; readonly attributePosition: number }[]
}

/**
 * What may this seat's phone know of its cups?
 *
 * Copies the named fields and nothing else, in the order of tasting, so that a column added to a serving later
 * never travels by accident. What was said of a cup that is done does not come back: nobody needs it on a phone, and
 * whoever goes on with the seat by a photographed card would read it. For the same reason a comment of before the seat
 * went on on another phone does not come back.
 *
 * @param servings    of one seat, in any order
 * @param attributes  how many attributes the panel has
 * @param movedAt     when another phone went on with the seat last; null: never
 *
 * Source   our own rule: before closing a phone knows codes, never cups
 * Checked  test/unit/panel/blind.test.ts, test/integration/taste/blindness.test.ts
 */
export function servingsForPhone(
  servings: readonly StoredServing[],
  attributes: number,
  movedAt: Date | null,
): BlindServing[] {
  return [...servings]
    .sort((a, b) => a.position - b.position)
    .map((serving) => ({
      position: serving.position,
      code: serving.code,
      seen: serving.codeSeenAt !== null,
      locked: serving.lockedAt !== null,
      skipped: serving.skippedAt !== null,
      comment: serving.lockedAt === null && !isOfBefore(serving, movedAt) ? (serving.comment ?? '') : '',
      commentRevision: serving.commentRevision,
      commentKept: serving.lockedAt === null && isOfBefore(serving, movedAt),
      answers: Array.from({ length: attributes }, (_, position) => {
        if (serving.lockedAt !== null) return null
        const score = serving.scores.find((s) => s.attributePosition === position)
        return score ? { value: score.value, revision: score.revision } : null
      }),
    }))
}

/**
 * What may this seat's phone know of its sets? As of its cups: named fields and nothing else, and nothing of what is done.
 *
 * @param questions  how many questions about sets the panel has
 *
 * Checked  test/unit/panel/blind.test.ts
 */
export function setsForPhone(sets: readonly StoredSet[], questions: number): BlindSet[] {
  return [...sets]
    .sort((a, b) => a.number - b.number)
    .map((set) => ({
      number: set.number,
      positions: [...set.positions].sort((a, b) => a - b),
      locked: set.lockedAt !== null,
      skipped: set.skippedAt !== null,
      answers: Array.from({ length: questions }, (_, position) => {
        const given = set.answers.find((one) => one.attributePosition === position)
        return given && set.lockedAt === null ? { answer: [...given.answer], revision: given.revision } : null
      }),
    }))
}

/**
 * How is this question asked at this seat?
 *
 * @param shuffle  an order of the seat's own, the same each time it is asked for
 *
 * Source   our own rule: words near the top of a list are ticked more often, so each taster has them in another order
 * Checked  test/unit/panel/blind.test.ts
 */
export function askForPhone(question: Question, shuffle: <One>(of: readonly One[]) => readonly One[]): BlindAsk {
  switch (question.kind) {
    case 'liking-9':
      return { kind: 'liking' }
    case 'just-right-5':
      return { kind: 'steps', steps: justRightSteps(question) }
    case 'intensity-100': {
      const [low, high] = intensityEnds(question)
      return { kind: 'line', low, high }
    }
    case 'words':
      return { kind: 'words', words: shuffle(question.words.map((word, place) => ({ place, word }))) }
  }
}

/** Was this comment written before the seat went on on another phone? One whose moment was not kept counts as that. */
export function isOfBefore(
  { comment, commentAt }: Pick<StoredServing, 'comment' | 'commentAt'>,
  movedAt: Date | null,
): boolean {
  if (!comment || movedAt === null) return false
  return commentAt === null || commentAt.getTime() <= movedAt.getTime()
}
