import { theDatabase } from '@/lib/db/client'
import { openPanel } from '@/lib/tasks/open-panel'
import { planPanel } from '@/lib/tasks/plan-panel'
import { theWorld } from '@/lib/tasks/world'

/** Opens a panel of the demo recipe with many seats. @returns the path its code carries */
export async function openRoom(seatCount: number): Promise<string> {
  const db = theDatabase()
  const world = theWorld()
  const membership = await db.membership.findFirstOrThrow({ select: { cafeId: true, userId: true } })
  const trials = await db.trial.findMany({
    where: { recipe: { name: 'Cold steep with cardamom' } },
    select: { id: true, recipeId: true },
    take: 2,
  })
  const planned = await planPanel(world, membership, trials[0]?.recipeId ?? '', {
    title: 'A full room',
    publicTitle: 'Cold coffee',
    question: 'How fast?',
    cups: trials.map((trial) => trial.id),
    duplicate: null,
    aspects: [],
    seatCount,
    primaryKind: 'all-pairs',
    pairA: null,
    pairB: null,
    smallestDifference: 10,
    notWorseMargin: null,
    sampleMl: 40,
    seenThrough: null,
  })
  if (!planned.ok) throw new Error(`the bench's plan was refused: ${planned.reason}`)
  const opened = await openPanel(world, membership, planned.value)
  if (!opened.ok) throw new Error(`the bench's panel was not opened: ${opened.reason}`)
  const panel = await db.panel.findUniqueOrThrow({ where: { id: planned.value }, select: { joinToken: true } })
  return `/join/${panel.joinToken}`
}
