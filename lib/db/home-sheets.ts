import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'

/** Whether this café gives sheets out at all. */
export async function findHearsBack(db: Db | Tx, cafeId: string): Promise<boolean> {
  return (await db.cafe.findUnique({ where: { id: cafeId }, select: { hearsBack: true } }))?.hearsBack ?? false
}

/** @returns false where it stood so before */
export async function setHearsBack(tx: Tx, cafeId: string, hearsBack: boolean): Promise<boolean> {
  const where = { id: cafeId, hearsBack: !hearsBack }
  return (await tx.cafe.updateMany({ where, data: { hearsBack } })).count === 1
}

/** Writes a sheet with the next version of its recipe. @returns the version */
export async function addHomeSheet(
  tx: Tx,
  sheet: Omit<Prisma.HomeSheetUncheckedCreateInput, 'version' | 'answers' | 'tokenHash'>,
): Promise<number> {
  const { cafeId, recipeId } = sheet
  const last = await tx.homeSheet.findFirst({
    where: { cafeId, recipeId },
    orderBy: { version: 'desc' },
    select: { version: true },
  })
  const version = (last?.version ?? 0) + 1
  await tx.homeSheet.create({ data: { ...sheet, version } })
  return version
}

/** The newest sheets of a recipe first, with what came back of each. */
export async function findHomeSheets(db: Db | Tx, cafeId: string, recipeId: string, take: number) {
  return db.homeSheet.findMany({
    where: { cafeId, recipeId },
    orderBy: { version: 'desc' },
    take,
    select: {
      id: true,
      version: true,
      mark: true,
      tokenHash: true,
      createdAt: true,
      createdById: true,
      withdrawnAt: true,
      trial: { select: { id: true, number: true, name: true } },
      _count: { select: { answers: true } },
    },
  })
}

const whole = {
  recipe: { select: { id: true, name: true } },
  trial: { select: { id: true, number: true, name: true } },
} as const satisfies Prisma.HomeSheetInclude

export type HomeSheetRow = Prisma.HomeSheetGetPayload<{ include: typeof whole }>

/** One sheet, by its id or by what is printed on it. */
export async function findHomeSheet(
  db: Db | Tx,
  cafeId: string,
  by: { readonly id: string } | { readonly mark: string },
): Promise<HomeSheetRow | null> {
  return db.homeSheet.findFirst({ where: { cafeId, ...by }, include: whole })
}

/** The sheet that a link opens; null for one that was withdrawn or never was, and where the café gives none out any more. */
export async function findLinkedSheet(db: Db | Tx, tokenHash: string) {
  return db.homeSheet.findFirst({
    where: { tokenHash, withdrawnAt: null, recipe: { cafe: { hearsBack: true } } },
    include: whole,
  })
}

/** @returns false where there is none that a link could open. A link made before opens nothing from then on. @param tokenHash  null: none does */
export async function linkHomeSheet(tx: Tx, cafeId: string, id: string, tokenHash: string | null): Promise<boolean> {
  const { count } = await tx.homeSheet.updateMany({ where: { id, cafeId, withdrawnAt: null }, data: { tokenHash } })
  return count === 1
}

/** @returns false where there is none to withdraw: withdrawn before, or not this café's */
export async function endHomeSheet(
  tx: Tx,
  cafeId: string,
  id: string,
  by: { readonly at: Date; readonly userId: string },
): Promise<boolean> {
  const { count } = await tx.homeSheet.updateMany({
    where: { id, cafeId, withdrawnAt: null },
    data: { withdrawnAt: by.at, withdrawnById: by.userId },
  })
  return count === 1
}

/** @returns false where the answer of this key is there already: it is not written again */
export async function addHomeAnswer(tx: Tx, answer: Prisma.HomeAnswerUncheckedCreateInput): Promise<boolean> {
  const { cafeId, homeSheetId, key } = answer
  if (await tx.homeAnswer.findFirst({ where: { cafeId, homeSheetId, key }, select: { id: true } })) return false
  await tx.homeAnswer.create({ data: answer })
  return true
}

export async function countHomeAnswers(db: Db | Tx, cafeId: string, homeSheetId: string): Promise<number> {
  return db.homeAnswer.count({ where: { cafeId, homeSheetId } })
}

export async function countHome(db: Db | Tx, cafeId: string, recipeId: string) {
  const [sheets, answers] = await Promise.all([
    db.homeSheet.count({ where: { cafeId, recipeId } }),
    db.homeAnswer.count({ where: { cafeId, sheet: { recipeId } } }),
  ])
  return { sheets, answers }
}

/** What came back of all sheets of a recipe, the newest first. */
export async function findHomeAnswers(
  db: Db | Tx,
  cafeId: string,
  recipeId: string,
  stretch: { readonly skip: number; readonly take: number },
) {
  return db.homeAnswer.findMany({
    where: { cafeId, sheet: { recipeId } },
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    ...stretch,
    include: { sheet: { select: { version: true, trial: { select: { number: true, name: true } } } } },
  })
}

/** Answers of a café that still have a name and came before a moment. */
export async function findHomeNamesBefore(db: Db | Tx, cafeId: string, before: Date): Promise<readonly string[]> {
  const due = await db.homeAnswer.findMany({
    where: { cafeId, name: { not: null }, at: { lt: before } },
    select: { id: true },
  })
  return due.map(({ id }) => id)
}

/**
 * Takes out the name somebody signed with, and what they wrote where that was asked for. How they liked it stays.
 *
 * @param ids  in portions that a statement takes
 * @returns    how many had something to take out
 */
export async function takeHomeNamesOut(tx: Tx, ids: readonly string[], words: boolean): Promise<number> {
  const written = words ? [{ changed: { not: null } }, { text: { not: null } }] : []
  let gone = 0
  for (let at = 0; at < ids.length; at += 500) {
    const { count } = await tx.homeAnswer.updateMany({
      where: { id: { in: ids.slice(at, at + 500) }, OR: [{ name: { not: null } }, ...written] },
      data: { name: null, ...(words ? { changed: null, text: null } : {}) },
    })
    gone += count
  }
  return gone
}

/** Whose answer it is, in its own café; null where there is none. */
export async function findHomeAnswer(db: Db | Tx, cafeId: string, id: string) {
  return db.homeAnswer.findFirst({ where: { cafeId, id }, select: { id: true, sheet: { select: { recipeId: true } } } })
}

/** Of every café: no link to a sheet opens anything any more. */
export async function endAllHomeLinks(db: Db | Tx): Promise<void> {
  await db.homeSheet.updateMany({ where: { tokenHash: { not: null } }, data: { tokenHash: null } })
}

/** What a level teaspoon weighs, mg, of whatever this café weighed one of, by its name. */
export async function findSpoons(db: Db | Tx, cafeId: string) {
  const asked = { where: { cafeId, spoonMg: { not: null } }, select: { name: true, spoonMg: true } } as const
  const [ingredients, preparations] = await Promise.all([db.ingredient.findMany(asked), db.preparation.findMany(asked)])
  const byName = (rows: typeof ingredients) => new Map(rows.map(({ name, spoonMg }) => [name, spoonMg]))
  return { ingredients: byName(ingredients), preparations: byName(preparations) }
}
