import 'server-only'
import * as z from 'zod'
import type { PanelSpread } from '@/lib/stats/plan/pooled-spread'

/** What a closed panel keeps of its statistics, in any version: the model of overall liking, as far as spread goes. */
const SpreadFile = z.object({
  liking: z.object({
    counts: z.object({ tasters: z.number(), cups: z.number(), scores: z.number() }),
    model: z.object({ variance: z.object({ tasterByCup: z.number().nullable(), residual: z.number() }) }),
  }),
})

/** How far one taster's scores lay about their own mean in a closed panel; null where its text does not say. */
export function readSpread(text: string): PanelSpread | null {
  try {
    const read = SpreadFile.safeParse(JSON.parse(text))
    if (!read.success) return null
    const { counts, model } = read.data.liking
    const df = counts.scores - counts.tasters - counts.cups + 1
    const variance = model.variance.residual + (model.variance.tasterByCup ?? 0)
    return df > 0 && variance >= 0 ? { variance, df } : null
  } catch {
    return null
  }
}
