import { openDB, type DBSchema } from 'idb'
import { markOf, newKey, type Draft, type Parcel } from './parcel'

/** Where messages wait. Shared by every tab of the browser. */
export interface Outbox {
  /** Puts a draft at the end, with a key of its own and a revision above every one this browser or the café knows. */
  add(draft: Draft, knownRevision: number): Promise<Parcel>
  /** in the order of the taps */
  waiting(sitting: string): Promise<readonly Parcel[]>
  remove(id: number): Promise<void>
  /** Drops what earlier turns on this phone left behind: nobody would take it any more. */
  forgetOthers(sitting: string): Promise<void>
  /** false: a reload loses what waits, and the page says so */
  readonly lasts: boolean
}

interface Shelves extends DBSchema {
  parcels: { key: number; value: Omit<Parcel, 'id'> & { id?: number }; indexes: { sitting: string } }
  marks: { key: string; value: number }
}

/** The outbox in IndexedDB; in memory where the browser keeps none (some private windows). */
export async function openOutbox(): Promise<Outbox> {
  try {
    return await storedOutbox()
  } catch {
    return memoryOutbox()
  }
}

async function storedOutbox(): Promise<Outbox> {
  const db = await openDB<Shelves>('taster', 1, {
    upgrade(fresh) {
      fresh.createObjectStore('parcels', { keyPath: 'id', autoIncrement: true }).createIndex('sitting', 'sitting')
      fresh.createObjectStore('marks')
    },
  })
  return {
    lasts: true,
    async add(draft, knownRevision) {
      const tx = db.transaction(['parcels', 'marks'], 'readwrite')
      const marks = tx.objectStore('marks')
      const mark = markOf(draft)
      const revision = Math.max((await marks.get(mark)) ?? 0, knownRevision) + 1
      const parcel = { sitting: draft.sitting, message: { ...draft, revision, key: newKey() } }
      await marks.put(revision, mark)
      const id = await tx.objectStore('parcels').add(parcel)
      await tx.done
      return { ...parcel, id }
    },
    async waiting(sitting) {
      const rows = await db.getAllFromIndex('parcels', 'sitting', sitting)
      return rows.map((row) => ({ ...row, id: row.id ?? 0 })).sort((a, b) => a.id - b.id)
    },
    remove: (id) => db.delete('parcels', id),
    async forgetOthers(sitting) {
      const tx = db.transaction(['parcels', 'marks'], 'readwrite')
      for (const row of await tx.objectStore('parcels').getAll()) {
        if (row.sitting !== sitting && row.id !== undefined) await tx.objectStore('parcels').delete(row.id)
      }
      for (const mark of await tx.objectStore('marks').getAllKeys()) {
        if (!mark.startsWith(`${sitting} `)) await tx.objectStore('marks').delete(mark)
      }
      await tx.done
    },
  }
}

export function memoryOutbox(): Outbox {
  const marks = new Map<string, number>()
  let parcels: Parcel[] = []
  let lastId = 0
  return {
    lasts: false,
    async add(draft, knownRevision) {
      const revision = Math.max(marks.get(markOf(draft)) ?? 0, knownRevision) + 1
      marks.set(markOf(draft), revision)
      const parcel = { id: ++lastId, sitting: draft.sitting, message: { ...draft, revision, key: newKey() } }
      parcels.push(parcel)
      return parcel
    },
    waiting: async (sitting) => parcels.filter((parcel) => parcel.sitting === sitting),
    async remove(id) {
      parcels = parcels.filter((parcel) => parcel.id !== id)
    },
    async forgetOthers(sitting) {
      parcels = parcels.filter((parcel) => parcel.sitting === sitting)
    },
  }
}
