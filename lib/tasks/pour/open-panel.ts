import 'server-only'
import { demand } from '@/lib/base/demand'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { Tx } from '@/lib/db/engine/client'
import { freezeBatches } from '@/lib/db/frozen-trials'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { findPanel, setCupKey, setOpened, type PanelRecord } from '@/lib/db/panels'
import { findTrialsOfPanel } from '@/lib/db/trials'
import { dealJugLetters, shuffleCups } from '@/lib/panel/code'
import { designOf } from '@/lib/panel/kinds/kinds'
import { checkOpening, type PlanProblem } from '@/lib/panel/plan'
import { dealSeats, type DesignKey } from './deal-seats'
import { newTrays } from './new-trays'
import { sayBatches } from '../trial/said-batches'
import type { TodaysBatch } from '../trial/todays-batches'
import { freezeTrial } from '../trial/freeze-trial'
import { readGlasses } from '../trial/panel-glasses'
import { planOf } from '../plan/plan-of'
import { lookAtCups, refuseLook, type CupLook } from '../plan/look-at-cups'
import { refuseToMend } from '../trial/to-mend'
import { noteAct, type Actor, type World } from '../world'

export type OpenRefusal =
  | PlanProblem
  | CupLook['problem']
  | 'not-found'
  | 'not-a-draft'
  | 'trial-archived'
  | 'labels-unread'
  | 'nothing-in-cup'
  | 'cannot-be-worked-out'
  | 'batch-past-date'
  | 'no-batch-in-date'
  | 'brix-not-known'

/**
 * Opens a panel for tasting: freezes its trials, draws the orders from a new seed, and deals codes, jug letters and the
 * key from the operating system's chance. From here on the plan stands.
 *
 * @param pourFresh  somebody said that of a batch past its date another one is poured, which is in date
 */
export async function openPanel(
  world: World,
  actor: Actor,
  panelId: string,
  pourFresh = false,
): Promise<Result<null, OpenRefusal>> {
  return inTransaction(world, async (tx) => {
    const panel = await findPanel(tx, actor.cafeId, panelId)
    if (!panel) return no('not-found')
    if (panel.stage !== 'draft') return no('not-a-draft')
    const houseTrialId = (await findHouseRecipe(tx, actor.cafeId, panel.recipe.id))?.trialId ?? null
    const refusal = await findRefusal(world, tx, actor, panel, { houseTrialId, pourFresh })
    if (refusal) return refusal

    const orderSeed = world.below(2 ** 31)
    const opened = await setOpened(tx, actor.cafeId, panelId, {
      openedAt: world.now(),
      openedById: actor.userId,
      orderSeed,
    })
    if (!opened) return no('not-a-draft')
    const batches = await settlePoured(world, tx, actor, panel)
    for (const trialId of new Set(panel.cups.map((cup) => cup.trialId))) await freezeTrial(tx, world, trialId)

    const key = await dealKey(world, tx, panel, houseTrialId)
    const first = key.numberOf(panel.primaryTrialAId)
    const orders = { ...key.design, ...trayOf(panel), first, seed: orderSeed }
    const trays = newTrays(designOf(panel), [], panel.seatCount, orders)
    const where = { cafeId: actor.cafeId, id: panelId }
    await dealSeats(world, tx, where, { key: key.cups, trays, firstNumber: 1, takenCodes: [], addedAt: null })
    await noteAct(world, tx, actor, {
      act: 'panel-opened',
      subjectKind: 'panel',
      subjectId: panelId,
      detail: { cups: panel.cups.length, seats: panel.seatCount, ...(pourFresh && { pourFresh }), ...batches },
    })
    return ok(null)
  })
}

/**
 * Which batch of each preparation that a sheet names goes into which trial: a trial that froze in an earlier panel keeps the
 * batch of that day on its sheet, so what is poured now stands in the diary. These batches are corrected no more.
 */
async function settlePoured(world: World, tx: Tx, actor: Actor, { id, cafe }: PanelRecord) {
  const trials = await findTrialsOfPanel(tx, actor.cafeId, id)
  const glasses = await readGlasses(tx, actor.cafeId, cafe.allergenList, trials, world.now())
  const poured = trials.flatMap(({ id: trialId, number }) =>
    (glasses.get(trialId)?.todays ?? []).flatMap(({ name, batch }) => (batch ? [{ trial: number, name, batch }] : [])),
  )
  await freezeBatches(
    tx,
    actor.cafeId,
    poured.map(({ batch }) => batch.id),
    world.now(),
  )
  if (poured.length === 0) return false
  return { batches: sayBatches(poured.map(({ trial, name, batch }) => ({ trial, name, batch: batch.number }))) }
}

/** As the orders want it: no word where every taster gets them all. */
function trayOf({ cupsPerTaster }: Pick<PanelRecord, 'cupsPerTaster'>): { readonly perTaster?: number } {
  return cupsPerTaster === null ? {} : { perTaster: cupsPerTaster }
}

async function findRefusal(
  world: World,
  tx: Tx,
  actor: Actor,
  panel: PanelRecord,
  { houseTrialId, pourFresh }: { readonly houseTrialId: string | null; readonly pourFresh: boolean },
) {
  const [problem] = checkOpening(planOf(panel, houseTrialId))
  if (problem) return no(problem.problem)
  const archived = panel.cups.find((cup) => cup.trial.archivedAt !== null)
  if (archived) return no('trial-archived', { name: archived.trial.name })

  const trials = await findTrialsOfPanel(tx, actor.cafeId, panel.id)
  const glasses = await readGlasses(tx, actor.cafeId, panel.cafe.allergenList, trials, world.now())
  const empty = panel.cups.find((cup) => glasses.get(cup.trialId)?.isEmpty ?? true)
  if (empty) return no('nothing-in-cup', { name: empty.trial.name })
  const todays = [...glasses.values()].flatMap((glass) => glass.todays)
  const lacking = refuseBatches(todays)
  if (lacking) return lacking
  const unread = [...glasses.values()].flatMap((glass) => glass.unread)
  if (unread.length > 0) return no('labels-unread', { names: [...new Set(unread.map((one) => one.name))].join(', ') })
  const past = [...glasses.values()].flatMap((glass) => glass.past)
  if (past.length > 0 && !pourFresh)
    return no('batch-past-date', { names: [...new Set(past.map((one) => one.name))].join(', ') })
  const trialIds = panel.cups.map((cup) => cup.trialId)
  const toMend = await refuseToMend(tx, actor.cafeId, world.now(), trialIds)
  if (toMend) return toMend
  const [look] = await lookAtCups(tx, actor.cafeId, world.now(), { trialIds, publicTitle: panel.publicTitle })
  return look ? refuseLook(look) : null
}

/** Of what is named by its preparation there must be a batch, and its dose must be known. */
function refuseBatches(todays: readonly TodaysBatch[]) {
  const names = (some: readonly TodaysBatch[]) => [...new Set(some.map(({ name }) => name))].join(', ')
  const none = todays.filter(({ batch }) => batch === null)
  if (none.length > 0) return no('no-batch-in-date', { names: names(none) })
  const unknown = todays.filter(({ otherwise }) => otherwise?.dose === 'unknown')
  return unknown.length > 0 ? no('brix-not-known', { names: names(unknown) }) : null
}

/**
 * Deals which cup is which number of the design, and which letter stands on its jug. A hidden duplicate takes the number
 * after the last, as the orders expect of a copy.
 */
async function dealKey(world: World, tx: Tx, panel: PanelRecord, houseTrialId: string | null) {
  const own = shuffleCups(
    panel.cups.filter((cup) => !cup.isDuplicate),
    world,
  )
  const copies = panel.cups.filter((cup) => cup.isDuplicate)
  const dealt = [...own, ...copies]
  const letters = dealJugLetters(dealt.length, world)
  const cups: [number, string][] = []
  for (const [at, cup] of dealt.entries()) {
    const jugLetter = letters[at]
    demand(jugLetter !== undefined, `${dealt.length} cups need as many letters, got ${letters.length}`)
    await setCupKey(tx, cup.id, { design: at + 1, jugLetter, isHouse: cup.trialId === houseTrialId })
    cups.push([at + 1, cup.id])
  }
  const copied = own.findIndex((cup) => cup.trialId === copies[0]?.trialId)
  const design = copied < 0 ? { cups: own.length } : { cups: own.length, duplicate: copied + 1 }
  const numberOf = (trialId: string | null) => own.findIndex((cup) => cup.trialId === trialId) + 1 || null
  return { cups: new Map(cups) satisfies DesignKey, design, numberOf }
}
