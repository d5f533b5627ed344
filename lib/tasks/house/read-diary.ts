import 'server-only'
import { findAudit } from '@/lib/db/audit'
import { findNames } from '@/lib/db/people'
import type { Actor, World } from '../world'

export interface DiaryEntry {
  readonly id: string
  readonly at: Date
  readonly who: string
  readonly act: string
  readonly subjectKind: string
  readonly subjectId: string
  readonly detail: Readonly<Record<string, unknown>> | null
}

const pageSize = 100

/** The newest hundred lines of the diary, before a given line's time if one is given. */
export async function readDiary(world: World, actor: Actor, before: Date | null): Promise<DiaryEntry[]> {
  const rows = await findAudit(world.db, actor.cafeId, before, pageSize)
  const names = await findNames(
    world.db,
    rows.flatMap((row) => (row.actorId ? [row.actorId] : [])),
  )
  return rows.map((row) => ({
    id: row.id,
    at: row.at,
    who: row.actorKind === 'taster' ? 'a taster' : row.actorId ? (names.get(row.actorId) ?? 'somebody') : 'the machine',
    act: row.act,
    subjectKind: row.subjectKind,
    subjectId: row.subjectId,
    detail: row.detail ? (JSON.parse(row.detail) as Record<string, unknown>) : null,
  }))
}
