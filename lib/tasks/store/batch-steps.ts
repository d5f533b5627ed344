import 'server-only'
import * as z from 'zod'

const Steps = z.array(z.object({ text: z.string(), minutes: z.number().optional() }))

/** One step of a batch or a formula, with its minutes if it has some. */
export type BatchStep = Readonly<z.infer<typeof Steps>[number]>

/** Steps as a row keeps them; none where what it holds are no steps. */
export function stepsOfBatch(steps: string | null): readonly BatchStep[] {
  if (steps === null) return []
  try {
    return Steps.parse(JSON.parse(steps))
  } catch {
    return []
  }
}
