import 'server-only'
import type { Tx } from '@/lib/db/engine/client'
import {
  addPaperScore,
  changePaperScore,
  dropPaperScore,
  keepReplaced,
  lastReplacedRevision,
  setPaperServing,
} from '@/lib/db/paper'
import type { PaperTyped } from '@/lib/forms/paper-form'
import type { SheetCup } from './paper-sheet'
import type { Actor, World } from '../world'

type PaperCup = PaperTyped['cups'][number]
type Attribute = { readonly id: string; readonly position: number }

/** Who types, when, and in which transaction. */
export interface Typist {
  readonly world: World
  readonly tx: Tx
  readonly actor: Actor
  readonly at: Date
}

export function wouldChange(stands: SheetCup, attributes: readonly Attribute[], typed: PaperCup): boolean {
  return (
    attributes.some(({ id, position }) => valueOf(stands, id) !== (typed.answers[position] ?? null)) ||
    stands.skip !== typed.skip ||
    commentChanges(stands, typed)
  )
}

/**
 * Writes one cup of a sheet over what paper said of it before. What stood is kept beside; a cup of which nothing is left
 * is open again. @returns how many answers were replaced
 */
export async function correctPaperCup(
  typist: Typist,
  stands: SheetCup,
  attributes: readonly Attribute[],
  typed: PaperCup,
): Promise<number> {
  let replaced = 0
  for (const attribute of attributes) {
    if (await correctScore(typist, stands, attribute.id, typed.answers[attribute.position] ?? null)) replaced += 1
  }
  if (stands.skip !== null && stands.skip !== typed.skip) {
    await keep(typist, stands, { skipReason: stands.skip, revision: 1, at: stands.skippedAt })
    replaced += 1
  }
  if (stands.comment !== null && commentChanges(stands, typed)) {
    await keep(typist, stands, { comment: stands.comment, revision: stands.commentRevision, at: stands.commentAt })
    replaced += 1
  }
  await setPaperServing(typist.tx, stands.servingId, servingNow(typist, stands, attributes, typed))
  return replaced
}

function servingNow({ at }: Typist, stands: SheetCup, attributes: readonly Attribute[], typed: PaperCup) {
  const isScored = attributes.some(({ position }) => (typed.answers[position] ?? null) !== null)
  const isSaid = isScored || typed.skip !== null || typed.comment !== null
  return {
    lockedAt: isSaid ? (stands.lockedAt ?? at) : null,
    skippedAt: typed.skip === null ? null : stands.skip === typed.skip ? stands.skippedAt : at,
    skipReason: typed.skip,
    skipSource: typed.skip === null ? null : ('paper' as const),
    ...(stands.phone === null
      ? {
          comment: typed.comment,
          commentAt: typed.comment === null ? null : commentChanges(stands, typed) ? at : stands.commentAt,
          commentSource: typed.comment === null ? null : ('paper' as const),
          commentRevision: stands.commentRevision + (commentChanges(stands, typed) ? 1 : 0),
        }
      : {}),
  }
}

/** @returns whether something stood there */
async function correctScore(typist: Typist, stands: SheetCup, attributeId: string, value: number | null) {
  const { world, tx, actor, at } = typist
  const before = stands.scores.find((score) => score.attributeId === attributeId)
  if ((before?.value ?? null) === value) return false
  if (before) {
    const { revision, enteredById } = before
    await keep(typist, stands, { attributeId, value: before.value, revision, enteredById, at: before.at })
  }
  if (value === null) {
    if (before) await dropPaperScore(tx, before.id)
  } else if (before) {
    const revision = before.revision + 1
    await changePaperScore(tx, before.id, { value, revision, enteredById: actor.userId, at })
  } else {
    const revision = (await lastReplacedRevision(tx, stands.servingId, attributeId)) + 1
    const where = { id: world.id(), cafeId: actor.cafeId, servingId: stands.servingId, attributeId }
    await addPaperScore(tx, { ...where, value, revision, enteredById: actor.userId, at })
  }
  return before !== undefined
}

async function keep(
  { world, tx, actor, at: replacedAt }: Typist,
  { servingId }: SheetCup,
  what: {
    readonly attributeId?: string
    readonly value?: number
    readonly comment?: string
    readonly skipReason?: string
    readonly revision: number
    readonly enteredById?: string | null
    readonly at: Date | null
  },
): Promise<void> {
  await keepReplaced(tx, {
    attributeId: null,
    enteredById: null,
    source: 'paper',
    ...what,
    id: world.id(),
    cafeId: actor.cafeId,
    servingId,
    replacedAt,
    replacedById: actor.userId,
  })
}

function valueOf(stands: SheetCup, attributeId: string): number | null {
  return stands.scores.find((score) => score.attributeId === attributeId)?.value ?? null
}

/** A comment of the phone is not paper's to change; a sheet that tried was refused before. */
function commentChanges(stands: SheetCup, typed: PaperCup): boolean {
  return stands.phone === null && stands.comment !== typed.comment
}
