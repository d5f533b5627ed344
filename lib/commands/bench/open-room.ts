import { theDatabase } from '@/lib/db/engine/client'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { theWorld } from '@/lib/tasks/world'
import { likingQuestion } from '@/lib/panel/question'
import type { Kept } from './phones'

export interface OpenRoom {
  readonly panelId: string
  /** the path that the panel's code carries */
  readonly joinPath: string
  /** those of the seat cards, the last seat first: the code gives the first */
  readonly cardPaths: readonly string[]
}

const roomKeys = {
  joinToken: true,
  seats: { select: { cardToken: true }, orderBy: { number: 'desc' } },
} as const

/** Opens a panel of a demo recipe with many seats. */
export async function openRoom(seatCount: number): Promise<OpenRoom> {
  const db = theDatabase()
  const world = theWorld()
  const membership = await db.membership.findFirstOrThrow({ select: { cafeId: true, userId: true } })
  const trials = await db.trial.findMany({
    where: { recipe: { name: 'Cold steep with cardamom' } },
    select: { id: true, recipeId: true },
    orderBy: { number: 'asc' },
    take: 2,
  })
  const planned = await planPanel(world, membership, trials[0]?.recipeId ?? '', {
    title: 'A full room',
    publicTitle: 'Cold coffee',
    question: 'How fast?',
    cups: trials.map((trial) => trial.id),
    duplicate: null,
    aspects: [likingQuestion('Sweetness')],
    seatCount,
    primaryKind: 'all-pairs',
    pairA: null,
    pairB: null,
    smallestDifference: 10,
    notWorseMargin: null,
    sampleMl: 40,
    seenThrough: null,
    nothingSeen: true,
    cupsPerTaster: null,
    aim: 'best',
  })
  if (!planned.ok) throw new Error(`the bench's plan was refused: ${planned.reason}`)
  // the demo's first batch is past its date: another is poured
  const opened = await openPanel(world, membership, planned.value, true)
  if (!opened.ok) throw new Error(`the bench's panel was not opened: ${opened.reason}`)
  const panel = await db.panel.findUniqueOrThrow({ where: { id: planned.value }, select: roomKeys })
  const cardPaths = panel.seats.map(({ cardToken }) => `/seat/${cardToken}`)
  return { panelId: planned.value, joinPath: `/join/${panel.joinToken}`, cardPaths }
}

/** What the books hold of a panel after its phones have scored. */
export async function readBooks(
  panelId: string,
  db = theDatabase(),
): Promise<{ readonly kept: Kept[]; readonly late: number }> {
  const kept = await db.score.findMany({
    where: { serving: { panelId } },
    select: {
      value: true,
      revision: true,
      serving: { select: { code: true, seat: { select: { number: true } } } },
      attribute: { select: { position: true } },
    },
  })
  return { kept, late: await db.lateScore.count({ where: { serving: { panelId } } }) }
}
