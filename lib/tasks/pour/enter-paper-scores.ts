import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { Tx } from '@/lib/db/engine/client'
import { listAttributes } from '@/lib/db/scores'
import { addTaster } from '@/lib/db/seats'
import type { PaperTyped } from '@/lib/forms/paper-form'
import { roomOfQuestion } from '@/lib/panel/kinds/kinds'
import { isAnswer, questionOf, type Question, type QuestionColumns } from '@/lib/panel/question'
import { correctPaperCup, wouldChange, type Typist } from './correct-paper-cup'
import { correctPaperSet, wouldChangeSet, type TypedSet } from './correct-paper-set'
import type { SheetSet } from './paper-sets'
import { findPaperSheet, type PaperSheet } from './paper-sheet'
import { noteAct, type Actor, type World } from '../world'

type PaperCup = PaperTyped['cups'][number]

export type PaperRefusal =
  | 'no-such-seat'
  | 'not-on-paper'
  | 'barred'
  | 'set-aside'
  | 'code-elsewhere'
  | 'code-twice'
  | 'answered-on-phone'
  | 'typed-meanwhile'
  | 'off-the-scale'
  | 'no-such-answer'

/**
 * Types in one seat's paper: all of it or nothing. Typed again it corrects what was typed before, back to blank as well,
 * and what stood is kept. What a phone has answered is never touched.
 */
export async function enterPaperScores(
  world: World,
  actor: Actor,
  panelId: string,
  typed: PaperTyped,
): Promise<Result<{ readonly cups: number }, PaperRefusal>> {
  return inTransaction(world, async (tx) => {
    const sheet = await findPaperSheet(tx, actor.cafeId, panelId, typed.seat)
    if (!sheet) return no('no-such-seat', { field: 'seat' })
    if (sheet.barred) return no('barred', { field: '' })
    if (sheet.aside) return no('set-aside', { field: '' })
    if (!sheet.onPaper) return no('not-on-paper', { field: '' })
    // cups of a set are answered together
    if (sheet.sets.length > 0 && typed.cups.length > 0) return no('no-such-answer', { field: '' })
    const refusal = findCodeRefusal(sheet, typed.cups) ?? findPhoneRefusal(sheet, typed.cups)
    if (refusal) return refusal

    const asked = await listAttributes(tx, actor.cafeId, panelId)
    const attributes = asked.filter(({ about }) => about === 'serving')
    const off = findOffScale(attributes.map(questionOf), typed.cups)
    if (off) return off
    const ofSets = readTypedSets(
      sheet,
      asked.find(({ about }) => about === 'set'),
      typed.sets ?? [],
    )
    if (!ofSets.ok) return ofSets
    const written = typed.cups.flatMap((cup) => {
      const stands = sheet.cups.find(({ code }) => code === cup.code)
      return stands && stands.phone !== 'answer' && wouldChange(stands, attributes, cup) ? [{ stands, cup }] : []
    })
    if (typed.was !== sheet.mark && written.length + ofSets.value.length > 0)
      return no('typed-meanwhile', { field: '' })

    if (sheet.name === null && !sheet.isForgotten) await seatTaster(world, tx, actor, panelId, sheet, typed.name)
    const typist: Typist = { world, tx, actor, at: world.now() }
    let corrected = 0
    for (const { stands, cup } of written) corrected += await correctPaperCup(typist, stands, attributes, cup)
    for (const { stands, attributeId, set } of ofSets.value)
      corrected += await correctPaperSet(typist, stands, attributeId, set)
    const filled = typed.cups.filter(isFilled).length + (typed.sets ?? []).filter(isSaid).length
    await noteAct(world, tx, actor, {
      act: 'paper-scores-entered',
      subjectKind: 'panel',
      subjectId: panelId,
      detail: { seat: sheet.number, cups: filled, ...(corrected > 0 ? { corrected } : {}) },
    })
    return ok({ cups: filled })
  })
}

interface WrittenSet {
  readonly stands: SheetSet
  readonly attributeId: string
  readonly set: TypedSet
}

const isSaid = ({ answer, skip }: NonNullable<PaperTyped['sets']>[number]) => answer !== null || skip !== null

/** What of the typed sets would change anything, with codes turned into the places that are kept. */
function readTypedSets(
  sheet: PaperSheet,
  asked: (QuestionColumns & { readonly id: string }) | undefined,
  typed: NonNullable<PaperTyped['sets']>,
): Result<readonly WrittenSet[], PaperRefusal> {
  const room = asked && roomOfQuestion(asked)
  const written: WrittenSet[] = []
  if (new Set(typed.map(({ number }) => number)).size < typed.length)
    return no('no-such-answer', { field: 'sets[0].answer' })
  for (const [at, { number, answer, skip }] of typed.entries()) {
    const stands = sheet.sets.find((one) => one.number === number)
    if (!stands || !asked || !room) return no('no-such-answer', { field: `sets[${at}].answer` })
    if (stands.phone && isSaid({ number, answer, skip }))
      return no('answered-on-phone', { field: '', codes: stands.cups.map(({ code }) => code).join(', ') })
    const places = answer?.map((code) => stands.cups.find((cup) => cup.code === code)?.position ?? 0) ?? null
    const positions = stands.cups.map(({ position }) => position)
    if (places !== null && !room.isAnswer(asked, positions, places))
      return no('no-such-answer', { field: `sets[${at}].answer` })
    const set = { number, answer: places, skip }
    if (!stands.phone && wouldChangeSet(stands, asked.id, set)) written.push({ stands, attributeId: asked.id, set })
  }
  return ok(written)
}

function isFilled({ answers, skip, comment }: PaperCup): boolean {
  return skip !== null || comment !== null || answers.some((value) => value !== null)
}

function findCodeRefusal(sheet: PaperSheet, cups: readonly PaperCup[]) {
  const own = new Set(sheet.cups.map(({ code }) => code))
  const seen = new Set<string>()
  for (const [at, { code }] of cups.entries()) {
    if (!own.has(code)) return no('code-elsewhere', { field: `cups[${at}].code`, code })
    if (seen.has(code)) return no('code-twice', { field: `cups[${at}].code`, code })
    seen.add(code)
  }
  return null
}

/** On paper a number may stand that no step has. */
function findOffScale(questions: readonly Question[], cups: readonly PaperCup[]) {
  for (const [at, { answers }] of cups.entries()) {
    for (const [place, value] of answers.entries()) {
      const asked = questions[place]
      if (value === null || (asked && isAnswer(asked, value))) continue
      return no('off-the-scale', { field: `cups[${at}].answers[${place}]`, asked: asked?.kind ?? '' })
    }
  }
  return null
}

function findPhoneRefusal(sheet: PaperSheet, cups: readonly PaperCup[]) {
  const spoken = cups.filter((cup) => {
    const { phone = null } = sheet.cups.find(({ code }) => code === cup.code) ?? {}
    return (phone === 'answer' && isFilled(cup)) || (phone === 'comment' && cup.comment !== null)
  })
  return spoken.length === 0
    ? null
    : no('answered-on-phone', { field: '', codes: spoken.map(({ code }) => code).join(', ') })
}

async function seatTaster(world: World, tx: Tx, actor: Actor, panelId: string, sheet: PaperSheet, name: string) {
  const at = world.now()
  await addTaster(tx, { id: world.id(), cafeId: actor.cafeId, panelId, seatId: sheet.id, name, at })
}
