import { LIKING_HIGHEST, LIKING_LOWEST } from './liking'

/** What is asked of one cup. The first question of a panel is always its liking overall, which decides. */
export const questionKinds = ['liking-9', 'just-right-5', 'intensity-100', 'words'] as const
export type QuestionKind = (typeof questionKinds)[number]

export interface Question {
  readonly name: string
  readonly kind: QuestionKind
  /** what the two ends of the scale are called: of “just right” what is too little and too much, of a strength none and most */
  readonly low: string | null
  readonly high: string | null
  /** words of which those that apply are ticked; none for any other kind */
  readonly words: readonly string[]
}

export const questionLimits = {
  /** letters of a name, and of an end */
  name: 40,
  /** each word is one bit of a score, and a screen holds no more */
  words: { least: 2, most: 14 },
  word: 30,
} as const

/** The largest number that answers any question: every word ticked. */
export const HIGHEST_ANSWER = 2 ** questionLimits.words.most - 1

const INTENSITY_MOST = 100

/** What an owner leaves unsaid. */
export const usualEnds: Readonly<Record<'just-right-5' | 'intensity-100', readonly [string, string]>> = {
  'just-right-5': ['too little', 'too much'],
  'intensity-100': ['none at all', 'very much'],
}

export function likingQuestion(name: string): Question {
  return { name, kind: 'liking-9', low: null, high: null, words: [] }
}

/**
 * The five steps of “just about right” in words, from far too little to far too much.
 *
 * Source   ASTM MNL63 (2009): five points with “just about right” in the middle; the wording of the ends is the owner's,
 *          that of the outer steps our own
 * Checked  test/unit/panel/question.test.ts
 */
export function justRightSteps({ low, high }: Pick<Question, 'low' | 'high'>): readonly string[] {
  const [usualLow, usualHigh] = usualEnds['just-right-5']
  const [little, much] = [low ?? usualLow, high ?? usualHigh]
  return [`${little}, by far`, little, 'just right', much, `${much}, by far`]
}

/** The ends of a strength in words. */
export function intensityEnds({ low, high }: Pick<Question, 'low' | 'high'>): readonly [string, string] {
  const [none, most] = usualEnds['intensity-100']
  return [low ?? none, high ?? most]
}

/**
 * May this number be an answer to this question?
 *
 * @param value  liking 1 … 9; just right 1 … 5, 3 is right; strength 0 … 100; words: the sum of 2^place of those ticked, 0 for none
 *
 * Checked  test/unit/panel/question.test.ts
 */
export function isAnswer({ kind, words }: Pick<Question, 'kind' | 'words'>, value: number): boolean {
  const [least, most] = rangeOf(kind, words.length)
  return Number.isInteger(value) && value >= least && value <= most
}

/** @param words  how many there are to tick */
function rangeOf(kind: QuestionKind, words: number): readonly [number, number] {
  switch (kind) {
    case 'liking-9':
      return [LIKING_LOWEST, LIKING_HIGHEST]
    case 'just-right-5':
      return [1, 5]
    case 'intensity-100':
      return [0, INTENSITY_MOST]
    case 'words':
      return [0, 2 ** words - 1]
  }
}

/** The words an answer ticks. */
export function tickedWords({ words }: Pick<Question, 'words'>, value: number): readonly string[] {
  return words.filter((_, place) => ((value >> place) & 1) === 1)
}

/** The answer that ticks the words at these places. */
export function answerOfTicks(places: readonly number[]): number {
  return [...new Set(places)].reduce((sum, place) => sum + 2 ** place, 0)
}

/** An answer in words and its number, for whoever reads it in a list. */
export function sayAnswer(question: Question, value: number): string {
  switch (question.kind) {
    case 'words':
      return tickedWords(question, value).join(', ') || 'none of the words'
    case 'just-right-5':
      return justRightSteps(question)[value - 1] ?? String(value)
    default:
      return String(value)
  }
}

/** As a panel's row keeps it. */
export interface QuestionColumns {
  readonly name: string
  readonly kind: string
  /** JSON: { low, high } or { words }; null: nothing but the name */
  readonly options: string | null
}

export function columnsOf({ name, kind, low, high, words }: Question): QuestionColumns {
  if (kind === 'words') return { name, kind, options: JSON.stringify({ words }) }
  if (kind === 'liking-9' || (low === null && high === null)) return { name, kind, options: null }
  return { name, kind, options: JSON.stringify({ low, high }) }
}

/** Reading never fails: what is no kind of ours is asked as liking was before there were others, an end that is no text is not said. */
export function questionOf({ name, kind, options }: QuestionColumns): Question {
  const known = questionKinds.find((one) => one === kind) ?? 'liking-9'
  const said = readObject(options)
  const text = (value: unknown) => (typeof value === 'string' ? value : null)
  const words = Array.isArray(said['words']) ? said['words'].filter((word) => typeof word === 'string') : []
  return { name, kind: known, low: text(said['low']), high: text(said['high']), words }
}

/** A JSON object as a column keeps it; an empty one where there is none, or something else. */
export function readObject(kept: string | null): Readonly<Record<string, unknown>> {
  if (kept === null) return {}
  try {
    const read: unknown = JSON.parse(kept)
    return typeof read === 'object' && read !== null ? { ...read } : {}
  } catch {
    return {}
  }
}

/** Seconds a cup takes: reading its code and tasting, and each question. Common practice, no source. */
const TASTING_SECONDS = 20
const QUESTION_SECONDS = 8
const LONGEST_SECONDS = 120

/**
 * How long does one cup take a taster?
 *
 *     20 s + 8 s · questions
 *
 * @param questions  with liking
 * @returns          seconds, and whether that is more than two minutes: nobody tastes so long at one cup
 *
 * Source   common practice, no source
 * Checked  test/unit/panel/question.test.ts
 */
export function secondsPerCup(questions: number): { readonly seconds: number; readonly isLong: boolean } {
  const seconds = TASTING_SECONDS + QUESTION_SECONDS * questions
  return { seconds, isLong: seconds > LONGEST_SECONDS }
}

/** What keeps a question from being asked. */
export type QuestionProblem = 'words-too-few' | 'words-twice' | 'ends-alike'

export function questionProblem({ kind, low, high, words }: Question): QuestionProblem | null {
  const same = (a: string, b: string) => a.trim().toLowerCase() === b.trim().toLowerCase()
  if (kind === 'words') {
    if (words.length < questionLimits.words.least || words.length > questionLimits.words.most) return 'words-too-few'
    return words.some((word, at) => words.slice(at + 1).some((other) => same(word, other))) ? 'words-twice' : null
  }
  return low !== null && high !== null && same(low, high) ? 'ends-alike' : null
}
