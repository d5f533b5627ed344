import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import type { Tx } from '@/lib/db/client'
import { findPaperSeat, putPaperScore, setPaperServing, type PaperSeatRecord } from '@/lib/db/paper'
import { listAttributes } from '@/lib/db/scores'
import { addTaster } from '@/lib/db/seats'
import type { PaperTyped } from '@/lib/forms/paper-form'
import { noteAct, type Actor, type World } from './world'

type PaperCup = PaperTyped['cups'][number]
type Attribute = Awaited<ReturnType<typeof listAttributes>>[number]

export type PaperRefusal = 'no-such-seat' | 'not-on-paper' | 'code-elsewhere' | 'code-twice'

/** Types in one seat's paper: all of it or nothing. Typing it again corrects what was typed before. */
export async function enterPaperScores(
  world: World,
  actor: Actor,
  panelId: string,
  typed: PaperTyped,
): Promise<Result<{ readonly cups: number }, PaperRefusal>> {
  return world.db.$transaction(async (tx) => {
    const seat = await findPaperSeat(tx, actor.cafeId, panelId, typed.seat)
    if (!seat) return no('no-such-seat', { field: 'seat' })
    if (!seat.onPaper) return no('not-on-paper', { field: '' })
    const refusal = findCodeRefusal(seat, typed.cups)
    if (refusal) return refusal

    const attributes = await listAttributes(tx, actor.cafeId, panelId)
    if (!seat.taster) await seatTaster(world, tx, actor, panelId, seat, typed.name)
    const filled = typed.cups.filter(
      (cup) => cup.skip !== null || cup.comment !== null || cup.answers.some((x) => x !== null),
    )
    for (const cup of filled) await storeCup(world, tx, actor, seat, attributes, cup)
    await noteAct(world, tx, actor, {
      act: 'paper-scores-entered',
      subjectKind: 'panel',
      subjectId: panelId,
      detail: { seat: seat.number, cups: filled.length },
    })
    return ok({ cups: filled.length })
  })
}

function findCodeRefusal(seat: PaperSeatRecord, cups: readonly PaperCup[]) {
  const own = new Set(seat.servings.map((serving) => serving.code))
  const seen = new Set<string>()
  for (const [at, { code }] of cups.entries()) {
    if (!own.has(code)) return no('code-elsewhere', { field: `cups[${at}].code`, code })
    if (seen.has(code)) return no('code-twice', { field: `cups[${at}].code`, code })
    seen.add(code)
  }
  return null
}

async function seatTaster(world: World, tx: Tx, actor: Actor, panelId: string, seat: PaperSeatRecord, name: string) {
  const at = world.now()
  await addTaster(tx, { id: world.id(), cafeId: actor.cafeId, panelId, seatId: seat.id, name, at })
}

async function storeCup(
  world: World,
  tx: Tx,
  actor: Actor,
  seat: PaperSeatRecord,
  attributes: readonly Attribute[],
  cup: PaperCup,
) {
  const serving = seat.servings.find((one) => one.code === cup.code)
  if (!serving) return
  const at = world.now()
  for (const attribute of attributes) {
    const value = cup.answers[attribute.position] ?? null
    if (value === null) continue
    const before = serving.scores.find((score) => score.attributeId === attribute.id)
    const revision = (before?.revision ?? 0) + 1
    const row = { id: world.id(), cafeId: actor.cafeId, servingId: serving.id, attributeId: attribute.id }
    await putPaperScore(tx, { ...row, value, revision, enteredById: actor.userId, at })
  }
  await setPaperServing(tx, serving.id, {
    lockedAt: at,
    skippedAt: cup.skip ? at : null,
    skipReason: cup.skip,
    comment: cup.comment ?? serving.comment,
    commentRevision: serving.commentRevision + (cup.comment && cup.comment !== serving.comment ? 1 : 0),
  })
}
