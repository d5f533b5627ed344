import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addHomeSheet, endHomeSheet, findHearsBack, findHomeSheet, setHearsBack } from '@/lib/db/home-sheets'
import { findTrial } from '@/lib/db/trials'
import { writeHomeSheet } from '@/lib/forms/home-sheet'
import { noteAct, type Actor, type Reader, type World } from '../world'
import { homeContentOf } from './home-content'

/** Whether sheets for home are given out and answers taken in. What came back before stays to be read. */
export async function chooseHearing(world: World, actor: Actor, hearsBack: boolean): Promise<void> {
  await inTransaction(world, async (tx) => {
    if (!(await setHearsBack(tx, actor.cafeId, hearsBack))) return
    const act = hearsBack ? 'hearing-from-home-begun' : 'hearing-from-home-ended'
    await noteAct(world, tx, actor, { act, subjectKind: 'cafe', subjectId: actor.cafeId })
  })
}

/** No letters that are read as a digit, no vowels that make words. */
const SIGNS = 'BCDFGHJKLMNPQRSTVWXZ23456789'
const MARK_LENGTH = 8

function newMark(world: World): string {
  const signs = Array.from({ length: MARK_LENGTH }, () => SIGNS[world.below(SIGNS.length)] ?? '').join('')
  return `${signs.slice(0, MARK_LENGTH / 2)}-${signs.slice(MARK_LENGTH / 2)}`
}

/** Gives out a sheet of a trial as it stands now, under the next version of its recipe. */
export async function makeHomeSheet(
  world: World,
  reader: Reader,
  recipeId: string,
  trialId: string,
): Promise<Result<{ readonly id: string }, 'off' | 'gone'>> {
  const content = await homeContentOf(world, reader, trialId)
  const [id, mark] = [world.id(), newMark(world)]
  return inTransaction(world, async (tx) => {
    if (!(await findHearsBack(tx, reader.cafeId))) return no('off')
    const trial = await findTrial(tx, reader.cafeId, trialId)
    if (!trial || trial.recipeId !== recipeId || trial.archivedAt !== null || !content) return no('gone')
    const version = await addHomeSheet(tx, {
      id,
      cafeId: reader.cafeId,
      recipeId,
      trialId,
      sheet: writeHomeSheet(content),
      mark,
      createdAt: world.now(),
      createdById: reader.userId,
    })
    const detail = { sheet: version, trial: trial.number }
    await noteAct(world, tx, reader, { act: 'home-sheet-made', subjectKind: 'recipe', subjectId: recipeId, detail })
    return ok({ id })
  })
}

/** Ends a sheet: its link opens nothing any more, and it is neither printed nor taken away. What was sent back stays. */
export async function withdrawHomeSheet(world: World, actor: Actor, sheetId: string): Promise<void> {
  await inTransaction(world, async (tx) => {
    const sheet = await findHomeSheet(tx, actor.cafeId, { id: sheetId })
    if (!sheet || !(await endHomeSheet(tx, actor.cafeId, sheetId, { at: world.now(), userId: actor.userId }))) return
    await noteAct(world, tx, actor, {
      act: 'home-sheet-withdrawn',
      subjectKind: 'recipe',
      subjectId: sheet.recipeId,
      detail: { sheet: sheet.version },
    })
  })
}
