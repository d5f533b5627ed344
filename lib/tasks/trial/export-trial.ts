import 'server-only'
import { fileOfTrial } from '@/lib/forms/trial-of-file'
import { readTrial } from './read-trial'
import type { World, Reader } from '../world'

/** A trial as a file: what `npm run drink` reads, and what another recipe can take in. */
export async function exportTrial(
  world: World,
  reader: Reader,
  trialId: string,
): Promise<{ readonly content: string; readonly number: number } | null> {
  const sheet = await readTrial(world, reader, trialId)
  return sheet && { content: `${JSON.stringify(fileOfTrial(sheet.build), null, 2)}\n`, number: sheet.trial.number }
}
