import 'server-only'
import type { BackupManifest } from '@/lib/forms/backup-manifest'
import { forgottenMarks } from '@/lib/db/forgotten-marks'
import { endAllHomeLinks } from '@/lib/db/home-sheets'
import { endAllSessions } from '@/lib/db/sessions'
import { voidAllLinks } from '@/lib/db/links'
import { forgetAgain } from '../privacy/tidy'
import type { World } from '../world'

/**
 * What is done to a restored database before it takes its place: it is brought up to date and open, nobody else sees it yet.
 * A step that throws refuses the whole restore.
 *
 * @param database  the file whose place it takes
 */
export type RestoreStep = (world: World, backup: BackupManifest, database: string) => Promise<void>

/** In their order. What must hold again after every restore is a step here. */
export const restoreSteps: readonly RestoreStep[] = [
  async (world, _backup, database) => void (await forgetAgain(world, forgottenMarks(database))),
  // What opened the house on the day of the backup may have been used, withdrawn or signed out since.
  async (world) => {
    await endAllSessions(world.db)
    await voidAllLinks(world.db, world.now())
    await endAllHomeLinks(world.db)
  },
]
