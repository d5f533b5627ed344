import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { Tx } from '@/lib/db/engine/client'
import { addHomeAnswer, findHearsBack, findHomeSheet, type HomeSheetRow } from '@/lib/db/home-sheets'
import { HomeAnswerPasted, type HomeAnswerTyped } from '@/lib/forms/home-answer-form'
import { readHomeAnswer, type HomeTextFault } from '@/lib/forms/home-answer-text'
import { noteAct, type Actor, type World } from '../world'

export type PasteRefusal = HomeTextFault | 'nothing-said' | 'off' | 'unknown-sheet' | 'other-recipe'

/** `new`: written; `known`: it was taken in before, and nothing was written. */
export type TakenIn = 'new' | 'known'

/** Takes in an answer that came as a text. Pasting it twice adds nothing. */
export async function pasteHomeAnswer(
  world: World,
  actor: Actor,
  recipeId: string,
  pasted: string,
): Promise<Result<TakenIn, PasteRefusal>> {
  const read = readHomeAnswer(pasted)
  if (!read.ok) return no(read.reason)
  // a sum can be made for anything: what it sums is looked at as if it had none
  const answer = HomeAnswerPasted.safeParse(read.value)
  if (!answer.success) return no('damaged')
  const { mark, key, ...said } = answer.data
  if (said.liking === null && said.changed === '' && said.further === '') return no('nothing-said')
  return inTransaction(world, async (tx) => {
    if (!(await findHearsBack(tx, actor.cafeId))) return no('off')
    const sheet = await findHomeSheet(tx, actor.cafeId, { mark })
    if (!sheet) return no('unknown-sheet')
    if (sheet.recipeId !== recipeId) return no('other-recipe', { recipe: sheet.recipe.name })
    return ok(await write(world, tx, actor, sheet, { ...said, key, source: 'pasted' }))
  })
}

/** Takes in what somebody wrote on a printed sheet. @param key  made by the page: sending it again adds nothing */
export async function typeInHomeAnswer(
  world: World,
  actor: Actor,
  sheetId: string,
  key: string,
  said: HomeAnswerTyped,
): Promise<Result<TakenIn, 'off' | 'gone'>> {
  return inTransaction(world, async (tx) => {
    if (!(await findHearsBack(tx, actor.cafeId))) return no('off')
    const sheet = await findHomeSheet(tx, actor.cafeId, { id: sheetId })
    if (!sheet) return no('gone')
    return ok(await write(world, tx, actor, sheet, { ...said, key, source: 'paper' }))
  })
}

async function write(
  world: World,
  tx: Tx,
  actor: Actor,
  sheet: HomeSheetRow,
  said: HomeAnswerTyped & { readonly key: string; readonly source: 'pasted' | 'paper' },
): Promise<TakenIn> {
  const { cafeId } = actor
  const row = { ...homeAnswerRow(said), id: world.id(), cafeId, homeSheetId: sheet.id, at: world.now() }
  if (!(await addHomeAnswer(tx, { ...row, enteredById: actor.userId }))) return 'known'
  await noteAct(world, tx, actor, {
    act: 'home-answer-taken-in',
    subjectKind: 'recipe',
    subjectId: sheet.recipeId,
    detail: { sheet: sheet.version, source: said.source },
  })
  return 'new'
}

/** What is not said is not kept as an empty text. */
export function homeAnswerRow<Source extends string>({
  key,
  source,
  liking,
  changed,
  further,
  name,
}: HomeAnswerTyped & { readonly key: string; readonly source: Source }) {
  const kept = (text: string) => (text === '' ? null : text)
  return { key, source, liking, changed: kept(changed), text: kept(further), name: kept(name) }
}
