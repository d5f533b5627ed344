import 'server-only'
import { justRightSteps, questionOf, tickedWords, type Question } from '@/lib/panel/question'
import { check, type CheckAll } from '@/lib/stats/choice/check-all'
import { jar, type JustAboutRight, type LikingDrop } from '@/lib/stats/liking/just-about-right'
import { holm } from '@/lib/stats/multiplicity'
import {
  answerFor,
  countedScore,
  scoreRows,
  type AnsweredPanel,
  type AnsweredServing,
  type AspectAnswer,
  type ResultCup,
} from './panel-answers'

const LEVEL = 0.95

type Asked = AnsweredPanel['attributes'][number]

/** One side of “just right” at one cup. */
export interface DropSide extends LikingDrop {
  /** Holm over every side of every question of this panel; null where nothing can be tested */
  readonly pHolm: number | null
  /** what the panel suggests: many say it, and like the cup less; or that few say it, or that it cannot tell */
  readonly told: 'costs-liking' | 'few' | 'cannot-tell'
}

/** One cup as “just right” found it, of the tasters who answered it and liking. */
export interface CupDrops extends Pick<JustAboutRight, 'shares' | 'justRight' | 'notes'> {
  readonly letter: string
  /** who answered both */
  readonly answers: number
  readonly tooLittle: DropSide | null
  readonly tooMuch: DropSide | null
}

/** What goes with a cup being too little or too much of something. */
export interface DropAnswer {
  readonly attributeId: string
  readonly question: Question
  /** the five steps in words */
  readonly steps: readonly string[]
  readonly cups: readonly CupDrops[]
}

/** Which words were ticked for which cup. */
export interface WordsAnswer {
  readonly attributeId: string
  readonly question: Question
  /** null: nobody answered */
  readonly answer: CheckAll | null
}

/** What further questions say, each by the analysis of its kind; none of them carries the verdict. */
export interface FurtherAnswers {
  /** liked or strong: means with intervals */
  readonly aspects: readonly AspectAnswer[]
  readonly drops: readonly DropAnswer[]
  readonly ticked: readonly WordsAnswer[]
}

export function furtherAnswers(
  further: readonly Asked[],
  likingId: string,
  servings: readonly AnsweredServing[],
  cups: readonly ResultCup[],
): FurtherAnswers {
  const asked = further.map((one) => ({ id: one.id, question: questionOf(one) }))
  const of = (...kinds: readonly Question['kind'][]) => asked.filter(({ question }) => kinds.includes(question.kind))
  return {
    aspects: of('liking-9', 'intensity-100').map(({ id, question }) => ({
      attributeId: id,
      name: question.name,
      kind: question.kind,
      ...answerFor(aspectRows(servings, cups, id, question), { plan: 'all' }, null),
    })),
    drops: withTold(
      of('just-right-5').map(({ id, question }) => ({
        attributeId: id,
        question,
        cups: cups.map(({ letter, trialId }) => ({ letter, answer: dropOf(servings, trialId, id, likingId) })),
      })),
    ),
    ticked: of('words').map(({ id, question }) => ({
      attributeId: id,
      question,
      answer: wordsOf(servings, cups, id, question),
    })),
  }
}

/** The page shows the effect of order for overall liking alone; a cup skipped for dislike says nothing of how strong it is. */
function aspectRows(
  servings: readonly AnsweredServing[],
  cups: readonly ResultCup[],
  attributeId: string,
  { kind }: Question,
) {
  const rows = scoreRows(servings, cups, attributeId).map((row) => ({ ...row, position: null }))
  return kind === 'liking-9' ? rows : rows.map((row) => ({ ...row, skipped: false }))
}

interface Read {
  readonly attributeId: string
  readonly question: Question
  readonly cups: readonly { readonly letter: string; readonly answer: JustAboutRight }[]
}

/** A side that fewer than a fifth of the tasters are on is noise (ASTM MNL63 2009: 20 % is the usual line). */
const MANY = 0.2
const ALPHA = 1 - LEVEL

/** A panel looks at many sides at once: what it suggests stands after all of them are counted. */
function withTold(read: readonly Read[]): DropAnswer[] {
  const sides = read.flatMap(({ cups }) => cups.flatMap(({ answer }) => [answer.tooLittle, answer.tooMuch]))
  const tested = sides.filter((side) => side !== null && side.p !== null)
  const adjusted = holm(tested.map((side) => side?.p ?? 1))
  const told = (side: LikingDrop | null): DropSide | null => {
    if (side === null) return null
    const pHolm = adjusted[tested.indexOf(side)] ?? null
    const costs = pHolm !== null && pHolm <= ALPHA && side.meanDrop > 0
    return { ...side, pHolm, told: side.share < MANY ? 'few' : costs ? 'costs-liking' : 'cannot-tell' }
  }
  return read.map(({ attributeId, question, cups }) => ({
    attributeId,
    question,
    steps: justRightSteps(question),
    cups: cups.map(({ letter, answer }) => ({
      letter,
      answers: answer.counts.answers,
      shares: answer.shares,
      justRight: answer.justRight,
      notes: answer.notes,
      tooLittle: told(answer.tooLittle),
      tooMuch: told(answer.tooMuch),
    })),
  }))
}

/** Both pourings of a hidden duplicate are the same cup; its taster is one taster. */
function dropOf(
  servings: readonly AnsweredServing[],
  trialId: string,
  attributeId: string,
  likingId: string,
): JustAboutRight {
  const own = servings.filter(({ cup }) => cup.trialId === trialId)
  const rows = own.flatMap((serving) => {
    const attribute = countedScore(serving, attributeId)
    const liking = countedScore(serving, likingId)
    return attribute === null && liking === null ? [] : [{ attribute, liking, taster: String(serving.seat.number) }]
  })
  return jar(rows, { level: LEVEL })
}

/** Of a hidden duplicate the first pouring alone: a taster ticks a word once for a cup. */
function wordsOf(
  servings: readonly AnsweredServing[],
  cups: readonly ResultCup[],
  attributeId: string,
  question: Question,
): CheckAll | null {
  const letterOf = new Map(cups.map(({ trialId, letter }) => [trialId, letter]))
  const rows = servings.flatMap((serving) => {
    const value = countedScore(serving, attributeId)
    const cup = letterOf.get(serving.cup.trialId)
    if (value === null || cup === undefined || serving.cup.isDuplicate) return []
    const ticked = tickedWords(question, value)
    const taster = String(serving.seat.number)
    return question.words.map((term) => ({ taster, cup, term, checked: ticked.includes(term) }))
  })
  return rows.length === 0 ? null : check(rows, { level: LEVEL })
}
