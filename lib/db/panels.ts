import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'
import type { QuestionColumns } from '@/lib/panel/question'

/** What a plan fixes, as the database keeps it. Points are tenths. */
export interface PlanColumns {
  readonly title: string
  readonly publicTitle: string
  readonly question: string
  /** what is asked of tasters */
  readonly kind: string
  /** JSON, as the kind reads it */
  readonly design: string | null
  readonly aim: string
  readonly primaryKind: string
  readonly primaryTrialAId: string | null
  readonly primaryTrialBId: string | null
  readonly smallestDifference: number
  readonly notWorseMargin: number | null
  readonly seatCount: number
  readonly cupsPerTaster: number | null
  readonly sampleMl: number | null
  readonly seenThrough: string | null
  readonly nothingSeen: boolean
}

export interface CupColumns {
  readonly id: string
  readonly trialId: string
  readonly isHouse: boolean
  readonly isDuplicate: boolean
}

export interface AttributeColumns extends QuestionColumns {
  readonly id: string
  /** serving or set */
  readonly about: string
}

const planShape = {
  id: true,
  title: true,
  publicTitle: true,
  question: true,
  stage: true,
  kind: true,
  design: true,
  aim: true,
  primaryKind: true,
  primaryTrialAId: true,
  primaryTrialBId: true,
  smallestDifference: true,
  notWorseMargin: true,
  seatCount: true,
  cupsPerTaster: true,
  sampleMl: true,
  seenThrough: true,
  nothingSeen: true,
  copiedFromId: true,
  isDemo: true,
  createdAt: true,
  createdById: true,
  openedAt: true,
  openedById: true,
  closedAt: true,
  closedById: true,
  calledOffAt: true,
  calledOffById: true,
  cafe: { select: { allergenList: true } },
  recipe: { select: { id: true, name: true } },
  attributes: {
    select: { id: true, position: true, name: true, kind: true, about: true, options: true },
    orderBy: { position: 'asc' },
  },
  // Neither letter nor design: what this finds may be shown while the panel is open.
  cups: {
    select: {
      id: true,
      trialId: true,
      isHouse: true,
      isDuplicate: true,
      trial: { select: { name: true, number: true, archivedAt: true } },
    },
    orderBy: { place: 'asc' },
  },
} as const satisfies Prisma.PanelSelect

export type PanelRecord = Prisma.PanelGetPayload<{ select: typeof planShape }>

/** A panel without its key: no seed, no letters, no codes, no tokens. */
export async function findPanel(db: Db | Tx, cafeId: string, panelId: string): Promise<PanelRecord | null> {
  return db.panel.findFirst({ where: { id: panelId, cafeId }, select: planShape })
}

const rowShape = {
  id: true,
  title: true,
  stage: true,
  seatCount: true,
  createdAt: true,
  openedAt: true,
  closedAt: true,
  calledOffAt: true,
  isDemo: true,
  recipe: { select: { id: true, name: true } },
  // To be counted: of a cup nothing but that it is there.
  cups: { select: { panelId: true } },
} as const satisfies Prisma.PanelSelect

export type PanelRow = Omit<Prisma.PanelGetPayload<{ select: typeof rowShape }>, 'cups'> & { readonly cupCount: number }

/** The newest of one stage first: asked together, the closed ones would crowd out those never opened. */
export async function findPanels(
  db: Db | Tx,
  cafeId: string,
  stage: string,
  atMost: number,
): Promise<readonly PanelRow[]> {
  const panels = await db.panel.findMany({
    where: { cafeId, stage },
    select: rowShape,
    orderBy: [{ closedAt: 'desc' }, { openedAt: 'desc' }, { createdAt: 'desc' }],
    take: atMost,
  })
  return panels.map(({ cups, ...panel }) => ({ ...panel, cupCount: cups.length }))
}

export async function findPlanBasis(db: Db | Tx, cafeId: string, recipeId: string) {
  const recipe = await db.recipe.findFirst({
    where: { id: recipeId, cafeId, archivedAt: null },
    select: {
      id: true,
      name: true,
      isDemo: true,
      trials: {
        where: { archivedAt: null },
        select: { id: true, name: true, number: true, createdAt: true },
        orderBy: { number: 'desc' },
      },
    },
  })
  return recipe && { ...recipe, panelCount: await db.panel.count({ where: { cafeId, recipeId } }) }
}

export async function addPanel(
  tx: Tx,
  panel: PlanColumns & {
    readonly id: string
    readonly cafeId: string
    readonly recipeId: string
    readonly joinToken: string
    readonly copiedFromId: string | null
    readonly isDemo: boolean
    readonly createdAt: Date
    readonly createdById: string
  },
): Promise<void> {
  await tx.panel.create({ data: { ...panel, stage: 'draft' } })
}

/** @returns false when it is no draft any more: nothing was changed */
export async function setPlan(tx: Tx, cafeId: string, panelId: string, plan: PlanColumns): Promise<boolean> {
  const { count } = await tx.panel.updateMany({ where: { id: panelId, cafeId, stage: 'draft' }, data: plan })
  return count === 1
}

export async function addCupsAndAttributes(
  tx: Tx,
  cafeId: string,
  panelId: string,
  cups: readonly CupColumns[],
  attributes: readonly AttributeColumns[],
): Promise<void> {
  await tx.cup.createMany({ data: cups.map((cup, place) => ({ ...cup, cafeId, panelId, place })) })
  await tx.panelAttribute.createMany({
    data: attributes.map((attribute, position) => ({ ...attribute, cafeId, panelId, position })),
  })
}

export async function dropCupsAndAttributes(tx: Tx, cafeId: string, panelId: string): Promise<void> {
  await tx.cup.deleteMany({ where: { cafeId, panelId } })
  await tx.panelAttribute.deleteMany({ where: { cafeId, panelId } })
}

/** Only a draft can go: nothing was poured and nothing points at it. */
export async function dropDraft(tx: Tx, cafeId: string, panelId: string): Promise<boolean> {
  const draft = await tx.panel.findFirst({ where: { id: panelId, cafeId, stage: 'draft' }, select: { id: true } })
  if (!draft) return false
  await dropCupsAndAttributes(tx, cafeId, panelId)
  await tx.phoneTry.deleteMany({ where: { cafeId, panelId } })
  await tx.panel.delete({ where: { id: panelId } })
  return true
}

/** @returns false when somebody else opened it first */
export async function setOpened(
  tx: Tx,
  cafeId: string,
  panelId: string,
  opened: { readonly openedAt: Date; readonly openedById: string; readonly orderSeed: number },
): Promise<boolean> {
  const { count } = await tx.panel.updateMany({
    where: { id: panelId, cafeId, stage: 'draft' },
    data: { ...opened, stage: 'open' },
  })
  return count === 1
}

export async function setCupKey(
  tx: Tx,
  cupId: string,
  key: { readonly design: number; readonly jugLetter: string; readonly isHouse: boolean },
): Promise<void> {
  await tx.cup.update({ where: { id: cupId }, data: key })
}

/** @returns false when it was not open: nothing was changed */
export async function setClosed(
  tx: Tx,
  cafeId: string,
  panelId: string,
  closed: { readonly closedAt: Date; readonly closedById: string },
): Promise<boolean> {
  const { count } = await tx.panel.updateMany({
    where: { id: panelId, cafeId, stage: 'open' },
    data: { ...closed, stage: 'closed' },
  })
  return count === 1
}

/** @returns false when it was not open, or somebody has tasted: nothing was changed */
export async function setCalledOff(
  tx: Tx,
  cafeId: string,
  panelId: string,
  calledOff: { readonly calledOffAt: Date; readonly calledOffById: string },
): Promise<boolean> {
  const said = [
    { scores: { some: {} } },
    { set: { answers: { some: {} } } },
    { skippedAt: { not: null } },
    { comment: { not: null } },
  ]
  const { count } = await tx.panel.updateMany({
    where: { id: panelId, cafeId, stage: 'open', seats: { none: { servings: { some: { OR: said } } } } },
    data: { ...calledOff, stage: 'called-off' },
  })
  return count === 1
}

/** The draft that already puts the question of this panel again, if there is one. */
export async function findCopyInDraft(tx: Tx, cafeId: string, panelId: string): Promise<string | null> {
  const draft = await tx.panel.findFirst({
    where: { cafeId, copiedFromId: panelId, stage: 'draft' },
    orderBy: { createdAt: 'desc' },
    select: { id: true },
  })
  return draft?.id ?? null
}

export async function setSeatCount(tx: Tx, cafeId: string, panelId: string, seatCount: number): Promise<boolean> {
  const { count } = await tx.panel.updateMany({ where: { id: panelId, cafeId, stage: 'open' }, data: { seatCount } })
  return count === 1
}

/** For the panel's QR and its seat cards only. */
export async function findTokens(db: Db | Tx, cafeId: string, panelId: string) {
  return db.panel.findFirst({
    where: { id: panelId, cafeId, stage: 'open' },
    select: {
      joinToken: true,
      seats: { where: { leftAt: null }, select: { number: true, cardToken: true }, orderBy: { number: 'asc' } },
    },
  })
}

export async function findTestableRecipes(db: Db | Tx, cafeId: string) {
  const [recipes, trials] = await Promise.all([
    db.recipe.findMany({
      where: { cafeId, archivedAt: null },
      select: { id: true, name: true },
      orderBy: { name: 'asc' },
    }),
    db.trial.groupBy({ by: ['recipeId'], where: { cafeId, archivedAt: null }, _count: { _all: true } }),
  ])
  const counts = new Map(trials.map(({ recipeId, _count }) => [recipeId, _count._all]))
  return recipes.map((recipe) => ({ ...recipe, trialCount: counts.get(recipe.id) ?? 0 }))
}
