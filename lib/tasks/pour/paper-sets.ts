import 'server-only'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findPaperSetAnswers, findSetsOnPaper } from '@/lib/db/paper-sets'
import { readSetAnswer } from '@/lib/panel/kinds/set-kind'

/** One set of a sheet: what paper said of it, and whether a phone spoke first. */
export interface SheetSet {
  readonly setId: string
  readonly number: number
  /** by code, so that the order of tasting does not travel */
  readonly cups: readonly { readonly servingId: string; readonly code: string; readonly position: number }[]
  /** the phone's answer or skip: it is here that there is one, never what it says */
  readonly phone: boolean
  readonly answers: readonly {
    readonly id: string
    readonly attributeId: string
    readonly answer: readonly number[]
    readonly revision: number
    readonly key: string
    readonly enteredById: string | null
    readonly at: Date
  }[]
  readonly skip: string | null
  readonly skippedAt: Date | null
  readonly lockedAt: Date | null
}

/** What the sets of one seat have on paper. What its phone said is not even read from the database. */
export async function findSheetSets(db: Db | Tx, seatId: string): Promise<readonly SheetSet[]> {
  const sets = await findSetsOnPaper(db, seatId)
  const silent = sets.map((set) => ({ ...set, phone: spokeFirst(set) }))
  const answers = await findPaperSetAnswers(
    db,
    silent.filter(({ phone }) => !phone).map(({ id }) => id),
  )
  return silent.map(({ id, number, phone, servings, skippedAt, skipReason, lockedAt }) => ({
    setId: id,
    number,
    phone,
    cups: servings.map((one) => ({ servingId: one.id, code: one.code, position: one.position })),
    answers: answers
      .filter(({ setId }) => setId === id)
      .map((one) => ({ ...one, answer: readSetAnswer(one.answer) ?? [] })),
    skip: phone ? null : skipReason,
    skippedAt: phone ? null : skippedAt,
    lockedAt,
  }))
}

function spokeFirst({
  skipSource,
  answers,
}: {
  readonly skipSource: string | null
  readonly answers: readonly { readonly source: string }[]
}): boolean {
  return skipSource === 'phone' || answers.some(({ source }) => source === 'phone')
}
