import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { changePreparation, findPreparation, findPreparationByName, addPreparation } from '@/lib/db/preparations'
import type { PreparationSent } from '@/lib/forms/preparation-form'
import { isStale, preparationMark, type OpenedWith } from '../opened-with'
import { noteAct, type Actor, type World } from '../world'

const rowOf = (sent: PreparationSent) => ({
  name: sent.name,
  kind: sent.kind,
  storageDeciC: sent.storage === undefined ? null : Math.round(sent.storage * 10),
  keepsHours: sent.keepsHours === undefined ? null : Math.round(sent.keepsHours),
  pumpUl: sent.pump === undefined ? null : Math.round(sent.pump * 1000),
  spoonMg: sent.spoon === undefined ? null : Math.round(sent.spoon * 1000),
  note: sent.note ?? null,
})

export async function startPreparation(
  world: World,
  actor: Actor,
  sent: PreparationSent,
): Promise<Result<string, 'name-taken'>> {
  return inTransaction(world, async (tx) => {
    if (await findPreparationByName(tx, actor.cafeId, sent.name)) return no('name-taken')
    const id = world.id()
    await addPreparation(tx, { id, cafeId: actor.cafeId, createdAt: world.now(), ...rowOf(sent) })
    await noteAct(world, tx, actor, {
      act: 'preparation-started',
      subjectKind: 'preparation',
      subjectId: id,
      detail: { name: sent.name },
    })
    return ok(id)
  })
}

export async function changePreparationNotes(
  world: World,
  actor: Actor,
  id: string,
  sent: PreparationSent,
  opened: OpenedWith | null,
): Promise<Result<null, 'gone' | 'name-taken' | 'saved-elsewhere'>> {
  return inTransaction(world, async (tx) => {
    const before = await findPreparation(tx, actor.cafeId, id)
    if (!before) return no('gone')
    if (isStale(opened, preparationMark(before))) return no('saved-elsewhere')
    const named = await findPreparationByName(tx, actor.cafeId, sent.name)
    if (named && named.id !== id) return no('name-taken')
    await changePreparation(tx, actor.cafeId, id, rowOf(sent))
    await noteAct(world, tx, actor, { act: 'preparation-changed', subjectKind: 'preparation', subjectId: id })
    return ok(null)
  })
}

export async function archivePreparation(
  world: World,
  actor: Actor,
  id: string,
  archived: boolean,
): Promise<Result<null, 'gone'>> {
  return inTransaction(world, async (tx) => {
    if (!(await findPreparation(tx, actor.cafeId, id))) return no('gone')
    await changePreparation(tx, actor.cafeId, id, { archivedAt: archived ? world.now() : null })
    await noteAct(world, tx, actor, {
      act: archived ? 'preparation-put-aside' : 'preparation-taken-up',
      subjectKind: 'preparation',
      subjectId: id,
    })
    return ok(null)
  })
}
