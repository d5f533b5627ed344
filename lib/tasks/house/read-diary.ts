import 'server-only'
import { findAudit } from '@/lib/db/audit'
import { diaryLines, type DiaryEntry } from './diary-lines'
import type { Actor, World } from '../world'

const PAGE = 100

/** One page of the diary line by line, newest first. @param below  id of the last line of the page before; null for the first page */
export async function readDiary(
  world: World,
  actor: Actor,
  below: string | null,
): Promise<{ readonly lines: readonly DiaryEntry[]; readonly more: boolean }> {
  const found = await findAudit(world.db, actor.cafeId, below, PAGE + 1)
  return { lines: await diaryLines(world, actor, found.slice(0, PAGE)), more: found.length > PAGE }
}
