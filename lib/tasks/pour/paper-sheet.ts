import 'server-only'
import { createHash } from 'node:crypto'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findCommented, findComments, findPaperScores, findPaperSeat, findSkipReasons } from '@/lib/db/paper'
import { answeredOn, type AnswerSource } from '@/lib/panel/answer-source'
import { seatState } from '@/lib/panel/seat-progress'
import { findSheetSets, type SheetSet } from './paper-sets'

type PaperScoreRecord = Awaited<ReturnType<typeof findPaperScores>>[number]

/** One cup of a sheet: what paper said of it, and whether a phone spoke first. */
export interface SheetCup {
  readonly servingId: string
  readonly code: string
  /** the phone's answer or comment: it is here that there is one, never what it says */
  readonly phone: 'answer' | 'comment' | null
  readonly scores: readonly PaperScoreRecord[]
  readonly skip: string | null
  readonly skippedAt: Date | null
  readonly comment: string | null
  readonly commentAt: Date | null
  readonly commentRevision: number
  readonly lockedAt: Date | null
}

export interface PaperSheet {
  readonly id: string
  readonly number: number
  readonly onPaper: boolean
  readonly taken: boolean
  readonly finished: boolean
  readonly barred: boolean
  /** the house has set it aside: nothing more is taken, on paper neither */
  readonly aside: boolean
  readonly name: string | null
  /** its taster's name was taken out: it is not asked again, and what is typed is not kept */
  readonly isForgotten: boolean
  readonly cups: readonly SheetCup[]
  /** none where each cup is answered by itself */
  readonly sets: readonly SheetSet[]
  /** names what paper says of this seat: another mark, another sheet. Empty while nothing is typed in. */
  readonly mark: string
}

/**
 * What one seat of an open panel has on paper. What its phone said is not even read from the database.
 * @returns null when there is no such seat
 */
export async function findPaperSheet(
  db: Db | Tx,
  cafeId: string,
  panelId: string,
  number: number,
): Promise<PaperSheet | null> {
  const seat = await findPaperSeat(db, cafeId, panelId, number)
  if (!seat) return null
  const commented = await findCommented(
    db,
    seat.servings.map(({ id }) => id),
  )
  const servings = seat.servings.map((serving) => ({
    ...serving,
    ...answeredOn({
      isSkipped: serving.skippedAt !== null,
      skipSource: serving.skipSource,
      hasComment: commented.has(serving.id),
      commentSource: serving.commentSource,
      scoreSources: serving.scores.map(({ source }) => source),
    }),
  }))
  const fromPaper = (what: 'answer' | 'comment') =>
    servings.filter((serving) => serving[what] === 'paper').map(({ id }) => id)
  const scores = await findPaperScores(db, fromPaper('answer'))
  const skips = await findSkipReasons(db, fromPaper('answer'))
  const comments = await findComments(db, fromPaper('comment'))

  const sets = await findSheetSets(db, seat.id)
  const cups = servings.map((serving): SheetCup => {
    const skip = skips.get(serving.id) ?? null
    return {
      servingId: serving.id,
      code: serving.code,
      phone: spokeFirst(serving.answer, serving.comment),
      scores: scores.filter(({ servingId }) => servingId === serving.id),
      skip,
      skippedAt: skip === null ? null : serving.skippedAt,
      comment: comments.get(serving.id) ?? null,
      commentAt: serving.commentAt,
      commentRevision: serving.commentRevision,
      lockedAt: serving.lockedAt,
    }
  })
  return {
    id: seat.id,
    number: seat.number,
    onPaper: seat.onPaper,
    taken: seat.takenAt !== null,
    finished: seatState(progressOf(seat.servings)) === 'finished',
    barred: seat.barredAt !== null,
    aside: seat.setAsideAt !== null,
    name: seat.taster?.name ?? null,
    isForgotten: Boolean(seat.taster?.forgottenAt),
    cups,
    sets,
    mark: markOf(cups, sets),
  }
}

function spokeFirst(answer: AnswerSource | null, comment: AnswerSource | null): SheetCup['phone'] {
  if (answer === 'phone') return 'answer'
  return comment === 'phone' ? 'comment' : null
}

function progressOf(servings: readonly { readonly lockedAt: Date | null; readonly skippedAt: Date | null }[]) {
  const settled = servings.filter(({ lockedAt, skippedAt }) => lockedAt !== null || skippedAt !== null).length
  return { taken: true, left: false, barred: false, aside: false, settled, cups: servings.length }
}

function markOf(cups: readonly SheetCup[], sets: readonly SheetSet[]): string {
  const ofSets = sets.flatMap(({ number, answers, skip }) => {
    if (answers.length === 0 && skip === null) return []
    return [[number, answers.map(({ attributeId, answer }) => [attributeId, answer]), skip]]
  })
  const ofCups = cups.flatMap(({ code, scores, skip, comment }) => {
    if (scores.length === 0 && skip === null && comment === null) return []
    return [[code, scores.map(({ attributeId, value }) => `${attributeId} ${value}`).toSorted(), skip, comment]]
  })
  const said = [...ofCups, ...ofSets]
  if (said.length === 0) return ''
  return createHash('sha256').update(JSON.stringify(said)).digest('base64url').slice(0, 22)
}
