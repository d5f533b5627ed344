import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'

const servingShape = {
  id: true,
  position: true,
  code: true,
  pouredAt: true,
  codeSeenAt: true,
  lockedAt: true,
  skippedAt: true,
  skipReason: true,
  comment: true,
  cup: { select: { id: true, place: true, trialId: true, isDuplicate: true, isHouse: true } },
  set: {
    select: {
      number: true,
      answers: { select: { attributeId: true, answer: true, source: true, at: true } },
      uncounted: {
        select: {
          attributeId: true,
          why: true,
          answer: true,
          source: true,
          at: true,
          uncountedAt: true,
          uncountedById: true,
        },
        orderBy: { uncountedAt: 'asc' },
      },
    },
  },
  seat: {
    select: {
      id: true,
      number: true,
      onPaper: true,
      takenAt: true,
      leftAt: true,
      repeatOfSeatId: true,
      barredAt: true,
      barredWhy: true,
      setAsideAt: true,
      setAsideById: true,
      setAsideWhy: true,
      panel: { select: { closedAt: true } },
      taster: { select: { name: true } },
    },
  },
  scores: { select: { attributeId: true, value: true, source: true, at: true } },
  late: { select: { attributeId: true, value: true, at: true }, orderBy: { at: 'asc' } },
  replaced: {
    select: {
      attributeId: true,
      value: true,
      comment: true,
      skipReason: true,
      source: true,
      replacedAt: true,
      replacedById: true,
    },
    orderBy: { replacedAt: 'asc' },
  },
} as const satisfies Prisma.ServingSelect

/** One serving with who had it, which cup it was and what was said: the key is in it. For closed panels only. */
export type UnblindedServing = Prisma.ServingGetPayload<{ select: typeof servingShape }>

/** Every serving of a panel that is closed or decided; an open panel gives nothing, whoever asks. */
export async function findUnblindedServings(db: Db | Tx, cafeId: string, panelId: string): Promise<UnblindedServing[]> {
  return db.serving.findMany({
    where: { cafeId, panelId, seat: { panel: { stage: { in: ['closed', 'decided'] } } } },
    select: servingShape,
    orderBy: [{ seat: { number: 'asc' } }, { position: 'asc' }],
  })
}

/** The parts of the key that matter for a record: seed and jug letters. For closed panels only. */
export async function findKey(db: Db | Tx, cafeId: string, panelId: string) {
  return db.panel.findFirst({
    where: { id: panelId, cafeId, stage: { in: ['closed', 'decided'] } },
    select: {
      orderSeed: true,
      cups: {
        select: { id: true, place: true, design: true, jugLetter: true, trialId: true },
        orderBy: { place: 'asc' },
      },
    },
  })
}

/** Keeps what a panel was told at closing: once, and never again. */
export async function keepClosingAnswer(
  tx: Tx,
  cafeId: string,
  panelId: string,
  text: string,
  at: Date,
): Promise<void> {
  await tx.panel.updateMany({
    where: { id: panelId, cafeId, stage: 'closed', closingAnswer: null },
    data: { closingAnswer: text, closingAnswerAt: at, closingAnswerHow: 'closing' },
  })
}

/** What a panel keeps of its closing; null for one that is not over, and for one that keeps nothing. */
export async function findClosingAnswer(db: Db | Tx, cafeId: string, panelId: string) {
  const found = await db.panel.findFirst({
    where: { id: panelId, cafeId, stage: { in: ['closed', 'decided'] } },
    select: { closingAnswer: true, closingAnswerAt: true, closingAnswerHow: true },
  })
  if (!found?.closingAnswer || !found.closingAnswerAt) return null
  return { text: found.closingAnswer, at: found.closingAnswerAt, how: found.closingAnswerHow }
}

/** What the newest closed panels keep: of one recipe, or of the whole café. */
export async function findClosingAnswers(db: Db | Tx, cafeId: string, recipeId: string | null, howMany: number) {
  const found = await db.panel.findMany({
    where: {
      cafeId,
      ...(recipeId === null ? {} : { recipeId }),
      stage: { in: ['closed', 'decided'] },
      closingAnswer: { not: null },
    },
    orderBy: { closedAt: 'desc' },
    take: howMany,
    select: { closingAnswer: true },
  })
  return found.flatMap(({ closingAnswer }) => closingAnswer ?? [])
}

/** A closed panel becomes decided with its first decision; later decisions change nothing here. */
export async function setDecided(tx: Tx, cafeId: string, panelId: string): Promise<void> {
  await tx.panel.updateMany({ where: { id: panelId, cafeId, stage: 'closed' }, data: { stage: 'decided' } })
}

export async function countDecisionsOfPanel(tx: Tx, cafeId: string, panelId: string): Promise<number> {
  return tx.decision.count({ where: { cafeId, panelId } })
}

export async function findDecisionsOfPanel(db: Db | Tx, cafeId: string, panelId: string) {
  return db.decision.findMany({
    where: { cafeId, panelId },
    orderBy: { at: 'desc' },
    include: {
      trial: { select: { id: true, number: true, name: true } },
      panel: { select: { id: true, title: true } },
    },
  })
}

const likingShape = {
  position: true,
  skippedAt: true,
  skipReason: true,
  cup: { select: { trialId: true, isDuplicate: true } },
  seat: { select: { number: true, takenAt: true, barredAt: true, setAsideAt: true } },
} as const satisfies Prisma.ServingSelect

/**
 * The liking of closed panels, and nothing else of them: their cups in plan order, and every serving with its one score.
 * An open panel gives nothing.
 */
export async function findLiking(db: Db | Tx, cafeId: string, panelIds: readonly string[]) {
  const panels = await db.panel.findMany({
    where: { cafeId, id: { in: [...panelIds] }, kind: 'liking', stage: { in: ['closed', 'decided'] } },
    select: {
      id: true,
      closedAt: true,
      attributes: { select: { id: true }, orderBy: { position: 'asc' }, take: 1 },
      cups: {
        select: { trialId: true, isHouse: true, isDuplicate: true, trial: { select: { name: true, number: true } } },
        orderBy: { place: 'asc' },
      },
    },
  })
  return Promise.all(
    panels.map(async ({ id, closedAt, attributes, cups }) => {
      const attributeId = attributes[0]?.id ?? ''
      const servings = await db.serving.findMany({
        where: { cafeId, panelId: id },
        select: {
          ...likingShape,
          scores: { where: { attributeId }, select: { attributeId: true, value: true, at: true } },
        },
        orderBy: [{ seat: { number: 'asc' } }, { position: 'asc' }],
      })
      return { id, closedAt, attributeId, cups, servings }
    }),
  )
}

/** The newest decisions of a café, of all its recipes. */
export async function findLatestDecisions(db: Db | Tx, cafeId: string, howMany: number) {
  return db.decision.findMany({
    where: { cafeId },
    orderBy: [{ at: 'desc' }, { version: 'desc' }, { id: 'desc' }],
    take: howMany,
    include: {
      recipe: { select: { id: true, name: true, isDemo: true } },
      trial: { select: { id: true, number: true, name: true } },
      panel: { select: { id: true, title: true } },
    },
  })
}

/** Closed panels that asked how at least two of these trials are liked, newest first, each with which. */
export async function findPanelsSharing(db: Db | Tx, cafeId: string, trialIds: readonly string[]) {
  const cups = await db.cup.findMany({
    where: {
      cafeId,
      trialId: { in: [...trialIds] },
      isDuplicate: false,
      panel: { kind: 'liking', stage: { in: ['closed', 'decided'] } },
    },
    select: { trialId: true, panel: { select: { id: true, title: true, closedAt: true } } },
  })
  const panels = new Map(cups.map(({ panel }) => [panel.id, { ...panel, trialIds: new Array<string>() }]))
  for (const { trialId, panel } of cups) panels.get(panel.id)?.trialIds.push(trialId)
  return [...panels.values()]
    .filter(({ trialIds }) => trialIds.length > 1)
    .sort((a, b) => (b.closedAt?.getTime() ?? 0) - (a.closedAt?.getTime() ?? 0) || (a.id < b.id ? 1 : -1))
}
