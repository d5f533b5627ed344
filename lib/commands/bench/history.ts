import { theDatabase } from '@/lib/db/client'
import { seededRandom } from '@/lib/stats/random'
import { foundDemoHouse, type DemoSignIn } from '@/lib/tasks/found-demo-house'
import { theWorld } from '@/lib/tasks/world'

export interface LaidHistory {
  readonly signIn: DemoSignIn
  readonly recipeId: string
  readonly trialId: string
  readonly panelId: string
}

const panels = 500
const tasters = 60
const cups = 5
/** SQLite takes a limited number of values in one statement. */
const chunk = 2000

/** The demo café, and beside it five hundred closed panels of one recipe: 60 tasters × 5 cups each, 150 000 scores. */
export async function layHistory(): Promise<LaidHistory> {
  const db = theDatabase()
  const world = theWorld()
  const signIn = await foundDemoHouse(world)
  const cafe = await db.cafe.findFirstOrThrow({ select: { id: true } })
  const trial = await db.trial.findFirstOrThrow({ where: { cafeId: cafe.id, number: 2 }, select: { recipeId: true } })
  const { recipeId } = trial
  const trials = await db.trial.findMany({
    where: { recipeId },
    orderBy: { number: 'asc' },
    take: cups,
    select: { id: true },
  })
  const random = seededRandom(20260317)
  let last = ''
  for (let number = 0; number < panels; number++) last = await layPanel(number)
  return { signIn, recipeId, trialId: trials[1]?.id ?? '', panelId: last }

  async function layPanel(number: number): Promise<string> {
    const cafeId = cafe.id
    const panelId = `bench-${number}`
    const at = new Date(Date.UTC(2025, 0, 1) + number * 3_600_000)
    await db.panel.create({
      data: {
        id: panelId,
        cafeId,
        recipeId,
        title: `Panel ${number}`,
        publicTitle: 'Iced coffee',
        question: 'Which is liked better?',
        stage: number % 2 ? 'decided' : 'closed',
        primaryKind: 'all-pairs',
        seatCount: tasters,
        joinToken: `bench-${number}-join`,
        orderSeed: number,
        createdAt: at,
        openedAt: at,
        closedAt: at,
      },
    })
    const attributeId = `${panelId}-liking`
    await db.panelAttribute.create({
      data: { id: attributeId, cafeId, panelId, position: 0, name: 'Overall liking', kind: 'liking-9' },
    })
    await db.cup.createMany({
      data: trials.map((one, place) => ({
        id: `${panelId}-cup-${place}`,
        cafeId,
        panelId,
        trialId: one.id,
        place,
        design: place + 1,
      })),
    })
    const seats = Array.from({ length: tasters }, (_, seat) => ({
      id: `${panelId}-seat-${seat}`,
      cafeId,
      panelId,
      number: seat + 1,
      cardToken: `${panelId}-card-${seat}`,
      takenAt: at,
      createdAt: at,
    }))
    await db.seat.createMany({ data: seats })
    const servings = seats.flatMap((seat, row) =>
      trials.map((_, place) => ({
        id: `${seat.id}-${place}`,
        cafeId,
        panelId,
        seatId: seat.id,
        cupId: `${panelId}-cup-${place}`,
        position: ((place + row) % cups) + 1,
        code: String(100 + ((row * cups + place) % 900)),
        lockedAt: at,
      })),
    )
    const scores = servings.map((serving) => ({
      id: `${serving.id}-score`,
      cafeId,
      servingId: serving.id,
      attributeId,
      value: 1 + random.below(9),
      revision: 1,
      key: serving.id,
      source: 'phone',
      at,
    }))
    for (let from = 0; from < servings.length; from += chunk) {
      await db.serving.createMany({ data: servings.slice(from, from + chunk) })
      await db.score.createMany({ data: scores.slice(from, from + chunk) })
    }
    return panelId
  }
}
