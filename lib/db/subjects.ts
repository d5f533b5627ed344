import 'server-only'
import type { Db, Tx } from './engine/client'

/** What a line of the diary is about: its own name, and what it belongs to where its page stands there. */
export interface SubjectName {
  readonly name: string
  readonly ownerId: string | null
}

type Find = (db: Db | Tx, cafeId: string, ids: string[]) => Promise<readonly (SubjectName & { readonly id: string })[]>

const numbered = ({ number, name }: { number: number; name: string }) => `${number}. ${name}`

const finders: Readonly<Record<string, Find>> = {
  panel: async (db, cafeId, ids) => {
    const found = await db.panel.findMany({ where: { cafeId, id: { in: ids } }, select: { id: true, title: true } })
    return found.map(({ id, title }) => ({ id, name: title, ownerId: null }))
  },
  recipe: async (db, cafeId, ids) => {
    const found = await db.recipe.findMany({ where: { cafeId, id: { in: ids } }, select: { id: true, name: true } })
    return found.map((one) => ({ ...one, ownerId: null }))
  },
  trial: async (db, cafeId, ids) => {
    const select = { id: true, number: true, name: true } as const
    const found = await db.trial.findMany({ where: { cafeId, id: { in: ids } }, select })
    return found.map((one) => ({ id: one.id, name: numbered(one), ownerId: null }))
  },
  ingredient: async (db, cafeId, ids) => {
    const found = await db.ingredient.findMany({ where: { cafeId, id: { in: ids } }, select: { id: true, name: true } })
    return found.map((one) => ({ ...one, ownerId: null }))
  },
  preparation: async (db, cafeId, ids) => {
    const found = await db.preparation.findMany({
      where: { cafeId, id: { in: ids } },
      select: { id: true, name: true },
    })
    return found.map((one) => ({ ...one, ownerId: null }))
  },
  batch: async (db, cafeId, ids) => {
    const found = await db.preparationBatch.findMany({
      where: { cafeId, id: { in: ids } },
      select: { id: true, number: true, preparation: { select: { id: true, name: true } } },
    })
    return found.map(({ id, number, preparation }) => ({
      id,
      name: `${preparation.name}, batch ${number}`,
      ownerId: preparation.id,
    }))
  },
  vessel: async (db, cafeId, ids) => {
    const found = await db.vessel.findMany({ where: { cafeId, id: { in: ids } }, select: { id: true, name: true } })
    return found.map((one) => ({ ...one, ownerId: null }))
  },
  seat: async (db, cafeId, ids) => {
    const found = await db.seat.findMany({
      where: { cafeId, id: { in: ids } },
      select: { id: true, number: true, panel: { select: { id: true, title: true } } },
    })
    return found.map(({ id, number, panel }) => ({ id, name: `seat ${number}, ${panel.title}`, ownerId: panel.id }))
  },
}

/** The names of what some lines are about, by id; what is gone, or has no name, is not in it. */
export async function findSubjectNames(
  db: Db | Tx,
  cafeId: string,
  subjects: readonly { readonly kind: string; readonly id: string }[],
): Promise<ReadonlyMap<string, SubjectName>> {
  const found = await Promise.all(
    Object.entries(finders).map(([kind, find]) => {
      const ids = [...new Set(subjects.filter((one) => one.kind === kind).map(({ id }) => id))]
      return ids.length > 0 ? find(db, cafeId, ids) : []
    }),
  )
  return new Map(found.flat().map(({ id, name, ownerId }) => [id, { name, ownerId }]))
}
