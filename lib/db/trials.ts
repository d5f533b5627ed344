import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'
import { inSlices } from './slices'

const line = {
  alternatives: {
    select: {
      costLevelId: true,
      ingredientId: true,
      batchId: true,
      preparationId: true,
      costLevel: { select: { id: true, name: true, position: true } },
    },
  },
} as const satisfies Prisma.TrialLineInclude

// An order inside a question about many cannot be split, and more than some 998 of them fail: see inOrder.
const whole = {
  lines: { include: line },
  steps: true,
  notes: true,
  vessel: true,
  costLevel: true,
  recipe: true,
} as const satisfies Prisma.TrialInclude

/** A trial with everything that belongs to it. */
export type TrialRow = Prisma.TrialGetPayload<{ include: typeof whole }>

/** Lines and steps in build order, notes as they were written, a line's alternatives as the levels stand. */
function inOrder(trial: TrialRow): TrialRow {
  const byPlace = (a: { position: number }, b: { position: number }) => a.position - b.position
  trial.lines.sort(byPlace)
  for (const { alternatives } of trial.lines) alternatives.sort((a, b) => byPlace(a.costLevel, b.costLevel))
  trial.steps.sort(byPlace)
  trial.notes.sort((a, b) => a.at.getTime() - b.at.getTime())
  return trial
}

export async function findTrial(db: Db | Tx, cafeId: string, id: string): Promise<TrialRow | null> {
  const trial = await db.trial.findFirst({ where: { cafeId, id }, include: whole })
  return trial && inOrder(trial)
}

export async function findTrials(db: Db | Tx, cafeId: string, recipeId: string): Promise<TrialRow[]> {
  const trials = await db.trial.findMany({ where: { cafeId, recipeId }, include: whole, orderBy: { number: 'asc' } })
  return trials.map(inOrder)
}

/** Some trials, in no order. */
export async function findTrialsById(db: Db | Tx, cafeId: string, ids: readonly string[]): Promise<TrialRow[]> {
  const trials = await inSlices(ids, (some) =>
    db.trial.findMany({ where: { cafeId, id: { in: some } }, include: whole }),
  )
  return trials.map(inOrder)
}

/** The trials of a recipe by number and name, for choosing one. */
export async function findTrialNames(db: Db | Tx, cafeId: string, recipeId: string) {
  return db.trial.findMany({
    where: { cafeId, recipeId },
    orderBy: { number: 'asc' },
    select: { id: true, number: true, name: true },
  })
}

/** What a line is made of: an ingredient, a batch, or a preparation with the batch it is written with beside. */
interface MadeOf {
  readonly ingredientId?: string | null
  readonly batchId?: string | null
  readonly preparationId?: string | null
}

/** What a cost level uses on a line in the place of what the sheet names. */
export type NewAlternative = MadeOf & { readonly id: string; readonly costLevelId: string }

export interface TrialContent {
  readonly trial: Omit<Prisma.TrialUncheckedUpdateInput, 'id' | 'cafeId' | 'recipeId' | 'number'> & {
    readonly name: string
    readonly method: string
  }
  readonly lines: readonly (MadeOf & { readonly alternatives?: readonly NewAlternative[] } & Omit<
      Prisma.TrialLineUncheckedCreateInput,
      'cafeId' | 'trialId' | 'position' | 'ingredientId' | 'batchId' | 'preparationId' | 'alternatives'
    >)[]
  readonly steps: readonly Omit<Prisma.TrialStepUncheckedCreateInput, 'cafeId' | 'trialId' | 'position'>[]
}

export interface NewTrial {
  readonly id: string
  readonly cafeId: string
  readonly recipeId: string
  readonly parentId: string | null
  readonly createdAt: Date
  readonly createdById: string
  readonly isDemo: boolean
}

/** The next trial of a recipe takes the next number, in the transaction that writes it. */
export async function addTrial(tx: Tx, fresh: NewTrial, content: TrialContent): Promise<number> {
  const { cafeId, recipeId } = fresh
  const last = await tx.trial.findFirst({
    where: { cafeId, recipeId },
    orderBy: { number: 'desc' },
    select: { number: true },
  })
  const number = (last?.number ?? 0) + 1
  const { name, method } = content.trial
  await tx.trial.create({ data: { ...fresh, number, name, method } })
  await changeTrialContent(tx, cafeId, fresh.id, content)
  return number
}

/** Writes a draft's fields, lines and steps anew. A line that is still made of the same keeps what cost levels use instead. */
export async function changeTrialContent(
  tx: Tx,
  cafeId: string,
  trialId: string,
  content: TrialContent,
): Promise<void> {
  const before = await tx.trialLine.findMany({
    where: { cafeId, trialId },
    orderBy: { position: 'asc' },
    select: { ingredientId: true, batchId: true, preparationId: true, alternatives: true },
  })
  await tx.trial.update({ where: { id: trialId, cafeId }, data: content.trial })
  await tx.lineAlternative.deleteMany({ where: { cafeId, line: { trialId } } })
  await tx.trialLine.deleteMany({ where: { cafeId, trialId } })
  await tx.trialLine.createMany({
    data: content.lines.map(({ alternatives: _, ...line }, place) => ({
      ...line,
      cafeId,
      trialId,
      position: place + 1,
    })),
  })
  const brought = content.lines.flatMap((line) =>
    (line.alternatives ?? []).map((row) => ({ ...row, cafeId, lineId: line.id })),
  )
  await tx.lineAlternative.createMany({ data: [...keptAlternatives(before, content.lines), ...brought] })
  await tx.trialStep.deleteMany({ where: { cafeId, trialId } })
  await tx.trialStep.createMany({
    data: content.steps.map((step, place) => ({ ...step, cafeId, trialId, position: place + 1 })),
  })
}

interface FormerLine extends MadeOf {
  readonly alternatives: readonly Prisma.LineAlternativeGetPayload<object>[]
}

/** Two lines of the same ingredient are told apart by their order: the first old one goes to the first new one. */
function keptAlternatives(before: readonly FormerLine[], lines: TrialContent['lines']) {
  const partOf = ({ ingredientId, batchId, preparationId }: MadeOf) =>
    preparationId ? `any ${preparationId}` : `${ingredientId ?? ''} ${batchId ?? ''}`
  return before.flatMap((former, place) => {
    const nth = before.slice(0, place).filter((one) => partOf(one) === partOf(former)).length
    const now = lines.filter((one) => partOf(one) === partOf(former))[nth]
    return now ? former.alternatives.map((row) => ({ ...row, lineId: now.id })) : []
  })
}

/** False when it froze in the meantime: a frozen trial is never changed. */
export async function isDraftTrial(tx: Tx, cafeId: string, trialId: string): Promise<boolean> {
  return (await tx.trial.count({ where: { id: trialId, cafeId, frozenAt: null, archivedAt: null } })) === 1
}

export async function addNote(tx: Tx, note: Prisma.TrialNoteUncheckedCreateInput): Promise<void> {
  await tx.trialNote.create({ data: note })
}

export async function setTrialArchived(tx: Tx, cafeId: string, trialId: string, at: Date | null): Promise<boolean> {
  const { count } = await tx.trial.updateMany({ where: { id: trialId, cafeId }, data: { archivedAt: at } })
  return count === 1
}

/** What is poured in a panel, each trial once, in no order that tells of cups. */
export async function findTrialsOfPanel(db: Db | Tx, cafeId: string, panelId: string): Promise<TrialRow[]> {
  const cups = await db.cup.findMany({ where: { cafeId, panelId }, distinct: ['trialId'], select: { trialId: true } })
  const ids = cups.map(({ trialId }) => trialId)
  const trials = await db.trial.findMany({ where: { cafeId, id: { in: ids } }, include: whole })
  return trials.map(inOrder)
}

/** A trial with the café facts its figures need, by id alone: for freezing inside a transaction that has checked the café. */
export async function findTrialWithCafe(tx: Tx, id: string) {
  const trial = await tx.trial.findUnique({ where: { id }, include: whole })
  if (!trial) return null
  const cafe = await tx.cafe.findUniqueOrThrow({
    where: { id: trial.cafeId },
    select: { currency: true, currencyDigits: true, allergenList: true },
  })
  return { trial: inOrder(trial), cafe }
}

/** Trials in the order of these ids, with the café facts their figures need. @returns null when one is not there */
export async function findTrialsWithCafe(db: Db | Tx, cafeId: string, ids: readonly string[]) {
  const [cafe, rows] = await Promise.all([
    db.cafe.findUnique({
      where: { id: cafeId },
      select: { currency: true, currencyDigits: true, allergenList: true },
    }),
    db.trial.findMany({ where: { cafeId, id: { in: [...ids] } }, include: whole }),
  ])
  const trials = ids.flatMap((id) => rows.find((row) => row.id === id) ?? []).map(inOrder)
  return cafe && trials.length === ids.length ? { cafe, trials } : null
}

/** A weighing that this café already keeps under the key. */
export async function findWeighingByKey(tx: Tx, cafeId: string, key: string) {
  return tx.weighing.findFirst({ where: { cafeId, key } })
}

export async function addWeighing(tx: Tx, weighing: Prisma.WeighingUncheckedCreateInput): Promise<void> {
  await tx.weighing.create({ data: weighing })
}

/** The newest first. */
export async function findWeighings(db: Db | Tx, cafeId: string, trialId: string, most = 20) {
  return db.weighing.findMany({ where: { cafeId, trialId }, orderBy: { at: 'desc' }, take: most })
}

export async function findWeighing(tx: Tx, cafeId: string, trialId: string, id: string) {
  return tx.weighing.findFirst({ where: { id, cafeId, trialId } })
}

export async function setWeighed(tx: Tx, lineId: string, weighedMg: number): Promise<void> {
  await tx.trialLine.update({ where: { id: lineId }, data: { weighedMg } })
}
