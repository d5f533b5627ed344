import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'
import { inSlices } from './slices'

// An order inside a question about many cannot be split, so inputs are put in order here.
const whole = {
  preparation: { select: { name: true, kind: true } },
  inputs: {
    include: {
      ingredient: { select: { name: true } },
      preparation: { select: { name: true } },
    },
  },
} as const satisfies Prisma.PreparationFormulaInclude

/** One version of how a preparation is made, with what goes in. */
export type FormulaRow = Prisma.PreparationFormulaGetPayload<{ include: typeof whole }>

function inOrder(rows: FormulaRow[]): FormulaRow[] {
  for (const { inputs } of rows) inputs.sort((a, b) => a.position - b.position)
  return rows
}

/** Every version of a preparation's formula, newest first. @param atMost  a house that changes more often has the older ones on its later pages */
export async function findFormulas(
  db: Db | Tx,
  cafeId: string,
  preparationId: string,
  atMost: number,
): Promise<FormulaRow[]> {
  const newest = { orderBy: { version: 'desc' }, take: atMost } as const
  return inOrder(await db.preparationFormula.findMany({ where: { cafeId, preparationId }, include: whole, ...newest }))
}

/** The version that counts of each of these preparations; one without a formula is not among them. */
export async function findNewestFormulas(
  db: Db | Tx,
  cafeId: string,
  preparationIds: readonly string[],
): Promise<FormulaRow[]> {
  const newest = await inSlices(preparationIds, (some) =>
    db.preparationFormula.groupBy({
      by: ['preparationId'],
      where: { cafeId, preparationId: { in: some } },
      _max: { version: true },
    }),
  )
  const versions = new Map(newest.map(({ preparationId, _max }) => [preparationId, _max.version ?? 0]))
  const rows = await inSlices(versions.keys(), (some) =>
    db.preparationFormula.findMany({
      where: {
        cafeId,
        OR: some.map((preparationId) => ({ preparationId, version: versions.get(preparationId) ?? 0 })),
      },
      include: whole,
    }),
  )
  return inOrder(rows)
}

/** One version of how this preparation is made. */
export async function findFormulaOf(db: Db | Tx, cafeId: string, preparationId: string, id: string) {
  return db.preparationFormula.findFirst({
    where: { cafeId, preparationId, id },
    select: { id: true, version: true, keepsHours: true },
  })
}

/** The number of each version of a preparation's formula, by its id. */
export async function findFormulaVersions(
  db: Db | Tx,
  cafeId: string,
  preparationId: string,
): Promise<ReadonlyMap<string, number>> {
  const select = { id: true, version: true } as const
  const rows = await db.preparationFormula.findMany({ where: { cafeId, preparationId }, select })
  return new Map(rows.map(({ id, version }) => [id, version]))
}

/** Writes the next version. @returns its number */
export async function addFormula(
  tx: Tx,
  formula: Omit<Prisma.PreparationFormulaUncheckedCreateInput, 'version'>,
  inputs: readonly Omit<Prisma.FormulaInputCreateManyInput, 'cafeId' | 'formulaId' | 'position'>[],
): Promise<number> {
  const { cafeId, preparationId } = formula
  const last = await tx.preparationFormula.findFirst({
    where: { cafeId, preparationId },
    orderBy: { version: 'desc' },
    select: { version: true },
  })
  const version = (last?.version ?? 0) + 1
  await tx.preparationFormula.create({ data: { ...formula, version } })
  await tx.formulaInput.createMany({
    data: inputs.map((input, place) => ({ ...input, cafeId, formulaId: formula.id, position: place + 1 })),
  })
  return version
}

/** Which preparation is made of which by the version that counts, over the whole café. */
export async function findFormulaUses(db: Db | Tx, cafeId: string): Promise<Map<string, string[]>> {
  const all = await db.preparation.findMany({ where: { cafeId, formulas: { some: {} } }, select: { id: true } })
  const rows = await findNewestFormulas(
    db,
    cafeId,
    all.map(({ id }) => id),
  )
  return new Map(rows.map((row) => [row.preparationId, row.inputs.flatMap(({ preparationId }) => preparationId ?? [])]))
}
