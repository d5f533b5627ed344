import 'server-only'
import { keepReplaced } from '@/lib/db/paper'
import { dropPaperSetAnswer, keepReplacedSetAnswer, lastReplacedSetRevision } from '@/lib/db/paper-sets'
import { addSetAnswer, changeSetAnswer, settleSet } from '@/lib/db/sets'
import type { Typist } from './correct-paper-cup'
import type { SheetSet } from './paper-sets'

/** What a sheet says of one set. */
export interface TypedSet {
  readonly number: number
  /** positions at this seat; null: left blank */
  readonly answer: readonly number[] | null
  readonly skip: string | null
}

const saidOf = (stands: SheetSet, attributeId: string) => stands.answers.find((one) => one.attributeId === attributeId)

export function wouldChangeSet(stands: SheetSet, attributeId: string, typed: TypedSet): boolean {
  const before = saidOf(stands, attributeId)?.answer ?? null
  return JSON.stringify(before) !== JSON.stringify(typed.answer) || stands.skip !== typed.skip
}

/**
 * Writes one set of a sheet over what paper said of it before. What stood is kept beside; a set of which nothing is left is
 * open again. @returns how many answers were replaced
 */
export async function correctPaperSet(
  typist: Typist,
  stands: SheetSet,
  attributeId: string,
  typed: TypedSet,
): Promise<number> {
  const { tx, at } = typist
  const replaced = (await correctAnswer(typist, stands, attributeId, typed.answer)) ? 1 : 0
  const skipGoes = stands.skip !== null && stands.skip !== typed.skip
  if (skipGoes) await keepSkip(typist, stands)
  await settleSet(tx, stands.setId, {
    lockedAt: typed.answer !== null || typed.skip !== null ? (stands.lockedAt ?? at) : null,
    skippedAt: typed.skip === null ? null : stands.skip === typed.skip ? stands.skippedAt : at,
    skipReason: typed.skip,
    skipSource: typed.skip === null ? null : 'paper',
  })
  return replaced + (skipGoes ? 1 : 0)
}

/** @returns whether something stood there */
async function correctAnswer(
  { world, tx, actor, at }: Typist,
  stands: SheetSet,
  attributeId: string,
  answer: readonly number[] | null,
): Promise<boolean> {
  const before = saidOf(stands, attributeId)
  if (JSON.stringify(before?.answer ?? null) === JSON.stringify(answer)) return false
  const where = { cafeId: actor.cafeId, setId: stands.setId, attributeId }
  if (before) {
    const { key, revision, enteredById } = before
    await keepReplacedSetAnswer(tx, {
      ...where,
      ...{ id: world.id(), key, revision, enteredById, at: before.at },
      answer: JSON.stringify(before.answer),
      uncountedAt: at,
      uncountedById: actor.userId,
    })
  }
  if (answer === null) {
    if (before) await dropPaperSetAnswer(tx, before.id)
    return before !== undefined
  }
  const id = world.id()
  const now = { answer: JSON.stringify(answer), key: id, source: 'paper', enteredById: actor.userId, at } as const
  if (before) await changeSetAnswer(tx, before.id, { ...now, revision: before.revision + 1 })
  else {
    const revision = (await lastReplacedSetRevision(tx, stands.setId, attributeId)) + 1
    await addSetAnswer(tx, { ...where, ...now, id, revision })
  }
  return before !== undefined
}

/** A reason stands at every cup of the set, and is kept at the first of them. */
async function keepSkip({ world, tx, actor, at }: Typist, stands: SheetSet): Promise<void> {
  const [first] = stands.cups
  if (!first || stands.skip === null) return
  await keepReplaced(tx, {
    id: world.id(),
    cafeId: actor.cafeId,
    servingId: first.servingId,
    attributeId: null,
    skipReason: stands.skip,
    revision: 1,
    enteredById: null,
    at: stands.skippedAt,
    source: 'paper',
    replacedAt: at,
    replacedById: actor.userId,
  })
}
