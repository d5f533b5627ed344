import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { brimOfWater } from '@/lib/drink/vessel'
import { changeVessel, findVessel, findVesselByName, addVessel } from '@/lib/db/vessels'
import type { Currency } from '@/lib/forms/fields'
import { heatLeakOf, type VesselSent } from '@/lib/forms/preparation-form'
import { isStale, vesselMark, type OpenedWith } from '../opened-with'
import { stillCountsIn } from './still-counts-in'
import { noteAct, type Actor, type World } from '../world'

type Keeper = Actor & { readonly cafe: Currency }

/** Tap water stands near this when a vessel is weighed full of it. */
const WEIGHED_AT = 20

function rowOf(sent: VesselSent, currencyDigits: number) {
  const brimMl = sent.brim?.value ?? brimOfWater(sent.water?.value ?? 0, WEIGHED_AT)
  // What was measured now counts before what stood there.
  const leak = heatLeakOf(sent) ?? sent.leak ?? null
  return {
    name: sent.name,
    brimUl: Math.round(brimMl * 1000),
    fillUl: sent.fill ? Math.round(sent.fill.value * 1000) : null,
    packMinor: sent.pack === undefined ? null : Math.round(sent.pack * 10 ** currencyDigits),
    isClear: sent.isClear === 'on',
    leakMilli: leak === null ? null : Math.round(leak * 1000),
  }
}

export async function enterVessel(
  world: World,
  actor: Keeper,
  sent: VesselSent,
): Promise<Result<string, 'name-taken' | 'currency-changed'>> {
  return inTransaction(world, async (tx) => {
    if (!(await stillCountsIn(tx, actor))) return no('currency-changed')
    if (await findVesselByName(tx, actor.cafeId, sent.name)) return no('name-taken')
    const id = world.id()
    const row = rowOf(sent, actor.cafe.currencyDigits)
    await addVessel(tx, { id, cafeId: actor.cafeId, createdAt: world.now(), ...row })
    await noteAct(world, tx, actor, {
      act: 'vessel-added',
      subjectKind: 'vessel',
      subjectId: id,
      detail: { name: sent.name, brimMl: row.brimUl / 1000 },
    })
    return ok(id)
  })
}

export async function correctVessel(
  world: World,
  actor: Keeper,
  id: string,
  sent: VesselSent,
  opened: OpenedWith | null,
): Promise<Result<null, 'gone' | 'name-taken' | 'currency-changed' | 'saved-elsewhere'>> {
  return inTransaction(world, async (tx) => {
    if (!(await stillCountsIn(tx, actor))) return no('currency-changed')
    const before = await findVessel(tx, actor.cafeId, id)
    if (!before) return no('gone')
    if (isStale(opened, vesselMark(before, actor.cafe))) return no('saved-elsewhere')
    const named = await findVesselByName(tx, actor.cafeId, sent.name)
    if (named && named.id !== id) return no('name-taken')
    await changeVessel(tx, actor.cafeId, id, rowOf(sent, actor.cafe.currencyDigits))
    await noteAct(world, tx, actor, { act: 'vessel-corrected', subjectKind: 'vessel', subjectId: id })
    return ok(null)
  })
}

export async function archiveVessel(
  world: World,
  actor: Actor,
  id: string,
  archived: boolean,
): Promise<Result<null, 'gone'>> {
  return inTransaction(world, async (tx) => {
    if (!(await findVessel(tx, actor.cafeId, id))) return no('gone')
    await changeVessel(tx, actor.cafeId, id, { archivedAt: archived ? world.now() : null })
    await noteAct(world, tx, actor, {
      act: archived ? 'vessel-put-aside' : 'vessel-taken-up',
      subjectKind: 'vessel',
      subjectId: id,
    })
    return ok(null)
  })
}
