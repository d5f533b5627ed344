import 'server-only'
import { statfs } from 'node:fs/promises'
import { dirname } from 'node:path'
import type { PrismaClient } from '../generated/client'

/** `full`: nothing more can be kept. `nearly-full`: soon. */
export type DiskState = 'full' | 'nearly-full'

const FULL_BYTES = 1e6 // less than one write with its copy in the write-ahead log may take
const NEARLY_FULL_BYTES = 100e6
const NEWS_MS = 60_000

// kept outside the module because `next dev`, and pages beside routes, load modules more than once; by the clock that is never set back
const here = globalThis as typeof globalThis & { sipwrightNoRoomAt?: number | null }

/** Called after each write: a commit that was kept, or one for which the disk had no room. */
export function noteWrite(found: 'room' | 'no-room'): void {
  here.sipwrightNoRoomAt = found === 'room' ? null : performance.now()
}

/**
 * Is the disk full on which the database lies? Asked of the last write and of the system; cheap enough for every page.
 *
 * @returns null while there is room
 */
export async function findDiskState(db: PrismaClient, freeBytes = freeBytesAt): Promise<DiskState | null> {
  const [main] = await db.$queryRaw<{ file: string }[]>`SELECT file FROM pragma_database_list WHERE name = 'main'`
  return diskStateOf(
    main ? await freeBytes(dirname(main.file)) : Infinity,
    here.sipwrightNoRoomAt ?? null,
    performance.now(),
  )
}

/**
 * @param free      bytes the system has left for us
 * @param noRoomAt  when the last write found no room, by the clock of `now`; null if it found some. A quota may refuse what the
 *   system would give
 */
export function diskStateOf(free: number, noRoomAt: number | null, now: number): DiskState | null {
  if (free < FULL_BYTES || (noRoomAt !== null && now - noRoomAt < NEWS_MS)) return 'full'
  return free < NEARLY_FULL_BYTES ? 'nearly-full' : null
}

async function freeBytesAt(folder: string): Promise<number> {
  const { bavail, bsize } = await statfs(folder)
  return bavail * bsize
}
