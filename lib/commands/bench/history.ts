import { theDatabase, type Tx } from '@/lib/db/engine/client'
import { seededRandom } from '@/lib/stats/random'

export interface LaidHistory {
  readonly panels: number
  /** the recipe that all of them tested */
  readonly recipeId: string
  readonly trialId: string
  /** the newest, with eight attributes */
  readonly panelId: string
}

const PANELS = 500
const TASTERS = 60
const CUPS = 5
const HOUR_MS = 3_600_000
const OTHER_RECIPES = 40
/** SQLite takes a limited number of values in one statement. */
const CHUNK = 2000
const AT_MOST_MS = 60_000

interface Cafe {
  readonly cafeId: string
  readonly byId: string
  readonly recipeId: string
  readonly trialIds: readonly string[]
}

/**
 * Beside what the demo café has: 500 closed panels of one recipe, 60 tasters × 5 cups each, half of them decided; 40 recipes
 * with three trials and a draft panel. All panels on one recipe is the hardest case for its pages.
 */
export async function layHistory(): Promise<LaidHistory> {
  const db = theDatabase()
  const { cafeId, userId: byId } = await db.membership.findFirstOrThrow({ select: { cafeId: true, userId: true } })
  const recipe = await db.recipe.findFirstOrThrow({
    where: { cafeId, name: 'Iced date-cardamom coffee' },
    select: { id: true, trials: { orderBy: { number: 'asc' }, take: CUPS, select: { id: true } } },
  })
  const house = { cafeId, byId, recipeId: recipe.id, trialIds: recipe.trials.map(({ id }) => id) }
  if (house.trialIds.length < CUPS) throw new Error(`the demo has ${house.trialIds.length} trials, ${CUPS} are needed`)
  for (let number = 0; number < PANELS; number++) {
    const attributes = number === PANELS - 1 ? 8 : 1
    await db.$transaction((tx) => layPanel(tx, house, number, attributes), { timeout: AT_MOST_MS })
  }
  await db.$transaction((tx) => layOtherRecipes(tx, house), { timeout: AT_MOST_MS })
  return {
    panels: PANELS,
    recipeId: recipe.id,
    trialId: house.trialIds[1] ?? '',
    panelId: panelName(PANELS - 1),
  }
}

const panelName = (number: number) => `bench-${number}`

async function layPanel(
  tx: Tx,
  { cafeId, byId, recipeId, trialIds }: Cafe,
  number: number,
  attributeCount: number,
): Promise<void> {
  const random = seededRandom(20260317 + number)
  const panelId = panelName(number)
  const at = new Date(Date.UTC(2025, 0, 1) + number * HOUR_MS)
  const isDecided = number % 2 === 1 && number < PANELS - 1
  const panel = { id: panelId, cafeId, recipeId, title: `Panel ${number}`, publicTitle: 'Iced coffee' }
  const moments = { createdAt: at, openedAt: at, closedAt: at }
  const plan = { question: 'Which is liked better?', primaryKind: 'all-pairs', seatCount: TASTERS, orderSeed: number }
  const stage = isDecided ? 'decided' : 'closed'
  await tx.panel.create({ data: { ...panel, ...moments, ...plan, stage, joinToken: `${panelId}-join` } })
  const attributes = Array.from({ length: attributeCount }, (_, position) => ({
    id: `${panelId}-attribute-${position}`,
    cafeId,
    panelId,
    position,
    name: position ? `Aspect ${position}` : 'Overall liking',
    kind: 'liking-9',
  }))
  await tx.panelAttribute.createMany({ data: attributes })
  const cups = trialIds.map((trialId, place) => ({
    id: `${panelId}-cup-${place}`,
    cafeId,
    panelId,
    trialId,
    place,
    design: place + 1,
    jugLetter: 'PQRST'[place] ?? null,
  }))
  await tx.cup.createMany({ data: cups })
  const seats = Array.from({ length: TASTERS }, (_, seat) => ({
    id: `${panelId}-seat-${seat}`,
    cafeId,
    panelId,
    number: seat + 1,
    cardToken: `${panelId}-card-${seat}`,
    takenAt: at,
    createdAt: at,
  }))
  await tx.seat.createMany({ data: seats })
  const said = { consentAt: at, cautionsAt: at, declaredAt: at }
  const tasters = seats.map(({ id, number }) => ({
    id: `${id}-taster`,
    cafeId,
    panelId,
    seatId: id,
    name: `Taster ${number}`,
    ...said,
  }))
  await tx.taster.createMany({ data: tasters })
  const servings = seats.flatMap((seat, row) =>
    cups.map((cup, place) => ({
      id: `${seat.id}-${place}`,
      cafeId,
      panelId,
      seatId: seat.id,
      cupId: cup.id,
      position: ((place + row) % CUPS) + 1,
      code: String(100 + ((row * CUPS + place) % 900)),
      lockedAt: at,
    })),
  )
  await tx.serving.createMany({ data: servings })
  const scores = servings.flatMap((serving) =>
    attributes.map((attribute) => ({
      id: `${serving.id}-score-${attribute.position}`,
      cafeId,
      servingId: serving.id,
      attributeId: attribute.id,
      value: 1 + random.below(9),
      revision: 1,
      key: serving.id,
      source: 'phone',
      at,
    })),
  )
  for (let from = 0; from < scores.length; from += CHUNK)
    await tx.score.createMany({ data: scores.slice(from, from + CHUNK) })
  if (!isDecided) return
  const decision = { id: `${panelId}-decision`, cafeId, recipeId, panelId, kind: 'keep', byId, at }
  await tx.decision.create({ data: { ...decision, reason: 'The difference was not worth a change.' } })
}

async function layOtherRecipes(tx: Tx, { cafeId, byId }: Cafe): Promise<void> {
  const createdAt = new Date(Date.UTC(2025, 0, 1))
  for (let number = 1; number <= OTHER_RECIPES; number++) {
    const recipeId = `bench-recipe-${number}`
    const panelId = `${recipeId}-draft`
    await tx.recipe.create({ data: { id: recipeId, cafeId, name: `Drink ${number}`, createdAt } })
    const trials = [1, 2, 3].map((trial) => ({
      id: `${recipeId}-trial-${trial}`,
      cafeId,
      recipeId,
      number: trial,
      name: `Version ${trial}`,
      method: 'other',
      createdAt,
      createdById: byId,
    }))
    await tx.trial.createMany({ data: trials })
    const plan = { question: 'Which?', primaryKind: 'all-pairs', seatCount: 12, joinToken: `${panelId}-join` }
    const panel = { id: panelId, cafeId, recipeId, title: `Draft ${number}`, publicTitle: 'A drink', stage: 'draft' }
    await tx.panel.create({ data: { ...panel, ...plan, createdAt } })
    const cups = trials.map(({ id: trialId }, place) => ({
      id: `${panelId}-${place}`,
      cafeId,
      panelId,
      trialId,
      place,
    }))
    await tx.cup.createMany({ data: cups })
  }
}
