import 'server-only'
import * as z from 'zod'

/** A batch that was poured into a trial, as the diary of the opening says it. */
export interface SaidBatch {
  /** of the trial, within its recipe */
  readonly trial: number
  /** of the preparation, as it was called that day */
  readonly name: string
  readonly batch: number
}

/** One text for all of them, by trial; each is said once. */
export function sayBatches(poured: readonly SaidBatch[]): string {
  const said = poured
    .toSorted((a, b) => a.trial - b.trial)
    .map(({ trial, name, batch }) => `trial ${trial}: ${name}, batch ${batch}`)
  return [...new Set(said)].join('; ')
}

const Detail = z.object({ batches: z.string().optional() })

/** Reads it again out of the detail of the diary's line; nothing where none was said, and for a text that is none. */
export function readSaidBatches(detail: string | null): readonly SaidBatch[] {
  if (detail === null) return []
  try {
    const read = Detail.safeParse(JSON.parse(detail))
    const text = read.success ? (read.data.batches ?? '') : ''
    return [...text.matchAll(/(?<=^|; )trial (\d+): (.*?), batch (\d+)(?=; trial \d+: |$)/gs)].map(
      ([, trial = '', name = '', batch = '']) => ({ trial: Number(trial), name, batch: Number(batch) }),
    )
  } catch {
    return []
  }
}
