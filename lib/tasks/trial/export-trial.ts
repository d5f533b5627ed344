import 'server-only'
import { lineOf } from '@/lib/drink/part'
import { isNotInDate } from '@/lib/drink/preparation'
import type { TrialBuild } from '@/lib/drink/trial'
import { fileOfTrial, readTrialFile } from '@/lib/forms/trial-of-file'
import { readStore } from '../store/reach-store'
import { readTrial, type TrialSheet } from './read-trial'
import type { World, Reader } from '../world'

/** A trial as a file, or in words why it would be one that nobody can read. */
export interface ExportedTrial {
  readonly content: string
  readonly number: number
  /** what is to be mended first, and where; null where the file is read again */
  readonly fault: string | null
}

/** A trial as a file: what `npm run drink` reads, and what another recipe can take in. */
export async function exportTrial(world: World, reader: Reader, trialId: string): Promise<ExportedTrial | null> {
  const sheet = await readTrial(world, reader, trialId)
  if (!sheet) return null
  const content = `${JSON.stringify(fileOfTrial(await asWritten(world, reader, sheet)), null, 2)}\n`
  const again = readTrialFile(content)
  return { content, number: sheet.trial.number, fault: again.ok ? null : faultOf(sheet, again.detail) }
}

/** As the sheet says it, else the place in the file and what is wrong there. */
function faultOf({ figures }: TrialSheet, found: Readonly<Record<string, string>> = {}): string {
  const said = figures.problems.find(({ doubt }) => !doubt)
  return said?.message ?? `${found['path'] ?? 'the file'} ${found['message'] ?? 'cannot be read'}.`
}

/**
 * A line whose preparation has no batch in date is written with the batch its amount was written for: a file says what the
 * drink is made of, and not what may be poured today. Where there never was one, it holds nothing.
 */
async function asWritten({ db, now }: World, reader: Reader, { build, todays }: TrialSheet): Promise<TrialBuild> {
  const before = new Map(todays.flatMap(({ key, batch, before: one }) => (batch === null && one ? [[key, one]] : [])))
  if (before.size === 0) return build
  const refs = [...before.values()].map(({ id }) => `batch:${id}`)
  const store = await readStore(db, reader.cafeId, now(), refs)
  return {
    ...build,
    lines: build.lines.map((line) => {
      const part = store.get(`batch:${before.get(line.key)?.id ?? ''}`)
      if (!part || !line.preparation || !isNotInDate(line.preparation)) return line
      const { key, role, targetGrams, weighedGrams, toleranceGrams, temperature, typed, insteadOf } = line
      const amount = { key, role, targetGrams, weighedGrams, toleranceGrams, temperature, typed, anyBatch: true }
      return { ...lineOf(part, amount), insteadOf }
    }),
  }
}
