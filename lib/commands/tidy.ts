/**
 * What the house does by itself once a day, and when it starts: names past their time are forgotten, and what is over leaves
 * nothing behind. Prints nothing when all went well.
 *
 *     node --import tsx --conditions=react-server lib/commands/tidy.ts
 */
import { theEnvironment } from '@/lib/base/env'
import { openDatabase } from '@/lib/db/engine/client'
import { forgottenMarks } from '@/lib/db/forgotten-marks'
import { dropOldCopies, tidy } from '@/lib/tasks/privacy/tidy'
import { worldOf } from '@/lib/tasks/world'

const { databaseUrl, databaseFile } = theEnvironment()
const db = openDatabase(databaseUrl)
try {
  const world = worldOf(db)
  await tidy(world, forgottenMarks(databaseFile))
  await dropOldCopies(world, databaseFile)
} finally {
  await db.$disconnect()
}
