import 'server-only'
import type { Db, Tx } from './engine/client'
import { inSlices } from './slices'

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
    const found = await db.seat.findMany({ where: { id: { in: ids } }, select: numberedSeat })
    return found.filter((one) => one.cafeId === cafeId).map(({ id, ...seat }) => ({ id, ...ofSeat(seat) }))
  },
  // A cup at a seat: whose it is, never which.
  serving: async (db, cafeId, ids) => {
    const select = { id: true, cafeId: true, seat: { select: numberedSeat } } as const
    const found = await db.serving.findMany({ where: { id: { in: ids } }, select })
    return found.filter((one) => one.cafeId === cafeId).map(({ id, seat }) => ({ id, ...ofSeat(seat) }))
  },
  set: async (db, cafeId, ids) => {
    const select = { id: true, cafeId: true, seat: { select: numberedSeat } } as const
    const found = await db.servingSet.findMany({ where: { id: { in: ids } }, select })
    return found.filter((one) => one.cafeId === cafeId).map(({ id, seat }) => ({ id, ...ofSeat(seat) }))
  },
}

// Asked for many by id alone: with the café beside it, SQLite would go through all of the café’s seats and cups.
const ofPanel = { id: true, cafeId: true, panel: { select: { id: true, title: true } } } as const
const numberedSeat = { ...ofPanel, number: true } as const

function ofSeat({ number, panel }: { readonly number: number; readonly panel: OfPanel }): SubjectName {
  return { name: `seat ${number}, ${panel.title}`, ownerId: panel.id }
}

/** The panel that a seat or a serving belongs to. */
export interface OfPanel {
  readonly id: string
  readonly title: string
}

/** Which panel each seat, and each cup or set of cups at a seat, belongs to, by id; what is gone is not in it. */
export async function findPanelsOf(
  db: Db | Tx,
  cafeId: string,
  subjects: readonly { readonly kind: string; readonly id: string }[],
): Promise<ReadonlyMap<string, OfPanel>> {
  const ids = (kind: string) => subjects.filter((one) => one.kind === kind).map(({ id }) => id)
  const [seats, servings, sets] = await Promise.all([
    inSlices(ids('seat'), (some) => db.seat.findMany({ where: { id: { in: some } }, select: ofPanel })),
    inSlices(ids('serving'), (some) =>
      db.serving.findMany({ where: { id: { in: some } }, select: { id: true, seat: { select: ofPanel } } }),
    ),
    inSlices(ids('set'), (some) =>
      db.servingSet.findMany({ where: { id: { in: some } }, select: { id: true, seat: { select: ofPanel } } }),
    ),
  ])
  const all = [...seats.map((seat) => ({ id: seat.id, seat })), ...servings, ...sets]
  return new Map(all.filter(({ seat }) => seat.cafeId === cafeId).map(({ id, seat }) => [id, seat.panel]))
}

/** The names of what some lines are about, by id; what is gone, or has no name, is not in it. */
export async function findSubjectNames(
  db: Db | Tx,
  cafeId: string,
  subjects: readonly { readonly kind: string; readonly id: string }[],
): Promise<ReadonlyMap<string, SubjectName>> {
  const found = await Promise.all(
    Object.entries(finders).map(([kind, find]) => {
      const ids = subjects.filter((one) => one.kind === kind).map(({ id }) => id)
      return inSlices(ids, (some) => find(db, cafeId, some))
    }),
  )
  return new Map(found.flat().map(({ id, name, ownerId }) => [id, { name, ownerId }]))
}
