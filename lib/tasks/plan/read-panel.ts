import 'server-only'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { findPanel, type PanelRecord } from '@/lib/db/panels'
import { findNames } from '@/lib/db/people'
import { findLastReached } from '@/lib/db/phone-tries'
import { findTrialsOfPanel } from '@/lib/db/trials'
import { findBarredSeats } from '@/lib/db/seats'
import { findOpenings } from '@/lib/db/trays'
import { batchesApart } from '@/lib/panel/batches-apart'
import { checkOpening, findStage } from '@/lib/panel/plan'
import { cupsOnTray, mlToPour, portionsPerCup } from '@/lib/panel/portions'
import { listNames } from '@/lib/panel/pouring-list'
import { whoKnowsTooMuch } from '@/lib/panel/who-may-taste'
import { planMark } from '../opened-with'
import { panelCautions } from './panel-cautions'
import { readGlasses, type Glass } from '../trial/panel-glasses'
import type { PanelCup, PanelReading } from './panel-reading'
import { planOf, traysOf } from './plan-of'
import { lookAtCups } from './look-at-cups'
import { findToMend } from '../trial/to-mend'
import type { Actor, World } from '../world'

/** Everything a reader of the panel's page may know at its stage. @returns null when it is not there */
export async function readPanel(world: World, actor: Actor, panelId: string): Promise<PanelReading | null> {
  const panel = await findPanel(world.db, actor.cafeId, panelId)
  const stage = panel && findStage(panel.stage)
  if (!panel || !stage) return null

  const { db } = world
  const [houseNow, trials, openings, phoneReachedAt, barredSeats] = await Promise.all([
    findHouseRecipe(db, actor.cafeId, panel.recipe.id),
    findTrialsOfPanel(db, actor.cafeId, panelId),
    findOpenings(db, actor.cafeId, panelId),
    findLastReached(db, actor.cafeId, panelId),
    findBarredSeats(db, actor.cafeId, panelId),
  ])
  const { allergenList } = panel.cafe
  const trialIds = panel.cups.map((cup) => cup.trialId)
  const toMend =
    stage === 'draft' ? await findToMend(db, actor.cafeId, world.now(), trialIds) : new Map<string, never>()
  const glasses = await readGlasses(db, actor.cafeId, allergenList, trials, world.now())
  const people = [
    panel.createdById,
    panel.openedById,
    panel.closedById,
    panel.calledOffById,
    ...openings.map((one) => one.userId),
  ]
  const names = await findNames(
    db,
    people.flatMap((id) => (id ? [id] : [])),
  )
  const nameOf = (id: string | null) => (id ? (names.get(id) ?? 'somebody') : null)
  // What was house recipe when it opened stays marked so.
  const house =
    stage === 'draft' ? (houseNow?.trialId ?? null) : (panel.cups.find((cup) => cup.isHouse)?.trialId ?? null)
  const plan = planOf(panel, house)
  const listOpenings = openings.flatMap(({ userId, list, at }) => {
    const known = listNames.find((name) => name === list)
    return known ? [{ userId, list: known, at }] : []
  })
  return {
    ...headOf(panel),
    mark: planMark(panel),
    ...amountsOf(panel),
    stage,
    plan,
    cups: panel.cups.map((cup) =>
      toCup(
        cup,
        house,
        glasses.get(cup.trialId),
        toMend.get(cup.trialId)?.message ?? null,
        stage !== 'draft' && stage !== 'open',
      ),
    ),
    plannedBy: nameOf(panel.createdById),
    openedBy: nameOf(panel.openedById),
    closedBy: nameOf(panel.closedById),
    calledOffBy: nameOf(panel.calledOffById),
    problems: stage === 'draft' ? checkOpening(plan).map(({ problem }) => problem) : [],
    looks: stage === 'draft' ? await looksOf(world, actor.cafeId, panel) : [],
    apart: stage === 'draft' || stage === 'open' ? apartOf(panel, glasses) : [],
    cautions: panelCautions(
      [...glasses.values()].flatMap(({ builds }) => builds),
      allergenList,
      { cups: cupsOnTray(traysOf(panel)), portionMl: panel.sampleMl },
    ),
    listReaders: listOpenings.map(({ userId, list, at }) => ({ list, at, name: nameOf(userId) ?? 'somebody' })),
    cannotTaste: whoKnowsTooMuch(listOpenings).map(({ userId, why }) => ({ name: nameOf(userId) ?? 'somebody', why })),
    barredSeats,
    phoneReachedAt,
  }
}

function apartOf({ cups }: PanelRecord, glasses: ReadonlyMap<string, Glass>) {
  return batchesApart(
    cups
      .filter(({ isDuplicate }) => !isDuplicate)
      .map(({ trialId, trial }) => ({
        cup: `trial ${trial.number}, ${trial.name}`,
        batches: glasses.get(trialId)?.batches ?? [],
      })),
  )
}

function amountsOf(panel: PanelRecord) {
  const { sampleMl } = panel
  const trays = traysOf(panel)
  const portions = portionsPerCup({ seats: panel.seatCount, ...trays })
  return {
    portionsPerCup: portions,
    mlPerCup: sampleMl === null ? null : mlToPour(portions, sampleMl),
    mlPerTaster: sampleMl === null ? null : cupsOnTray(trays) * sampleMl,
  }
}

function looksOf(world: World, cafeId: string, panel: PanelRecord) {
  const trialIds = panel.cups.map((cup) => cup.trialId)
  return lookAtCups(world.db, cafeId, world.now(), { trialIds, publicTitle: panel.publicTitle })
}

function headOf(panel: PanelRecord) {
  const { id, title, publicTitle, question, recipe, sampleMl, isDemo } = panel
  const { copiedFromId, createdAt, openedAt, closedAt, calledOffAt } = panel
  return {
    id,
    title,
    publicTitle,
    question,
    recipe,
    sampleMl,
    isDemo,
    copiedFromId,
    createdAt,
    openedAt,
    closedAt,
    calledOffAt,
  }
}

function toCup(
  cup: PanelRecord['cups'][number],
  houseTrialId: string | null,
  glass: Glass | undefined,
  toMend: string | null,
  isOver: boolean,
): PanelCup {
  return {
    trialId: cup.trialId,
    trialName: cup.trial.name,
    trialNumber: cup.trial.number,
    isHouse: cup.trialId === houseTrialId,
    isDuplicate: cup.isDuplicate,
    isArchived: cup.trial.archivedAt !== null,
    unread: glass?.unread ?? [],
    past: isOver ? [] : (glass?.past ?? []),
    todays: isOver ? [] : (glass?.todays ?? []),
    isEmpty: glass?.isEmpty ?? true,
    toMend,
  }
}
