import 'server-only'
import type { ForToday } from '@/lib/drink/for-today'
import { onTarget, scaleSheet, type ScaleStep } from '@/lib/drink/scale'
import type { TrialBuild } from '@/lib/drink/trial'
import type { BrewDone, WeighingSent } from '@/lib/forms/ladder-form'

/** What was held against a weight when it was kept: the sheet may change, what was asked for then does not. Grams. */
interface Asked {
  readonly name?: string
  /** of all glasses together; null: nobody could say */
  readonly wanted?: number | null
  readonly tolerance?: number
}

/** One weight as it is kept. Without `name` and the rest: kept before that was. */
export type KeptWeight = Asked & { readonly position: number; readonly grams: number }

/** What grounds were brewed with, as it is kept; `wanted` and `tolerance` are of the dry dose. */
export type KeptBrew = Asked & BrewDone

export interface Judged {
  readonly weights: readonly KeptWeight[]
  readonly brew: readonly KeptBrew[]
  /** every weight and dose within its tolerance; null where nothing could be held against any */
  readonly within: boolean | null
}

/** Holds what was weighed against the sheet of that moment, and the doses that were corrected then. */
export function judgeWeighing(
  build: TrialBuild,
  today: ForToday,
  sent: Pick<WeighingSent, 'glasses' | 'weights' | 'brew'>,
): Judged {
  const { steps } = scaleSheet(build, sent.glasses, today)
  const weights = sent.weights.map((one): KeptWeight => ({ ...one, ...askedOf(steps[one.position - 1]) }))
  const brew = (sent.brew ?? []).map((one): KeptBrew => {
    const step = steps[one.position - 1]
    return {
      ...one,
      ...(step?.brew ? { name: step.name, wanted: step.brew.dose, tolerance: step.brew.tolerance } : {}),
    }
  })
  const verdicts = [...weights.map((one) => isWithin(one, one.grams)), ...brew.map((one) => isWithin(one, one.dose))]
  const known = verdicts.filter((verdict) => verdict !== null)
  return { weights, brew, within: known.length === 0 ? null : known.every(Boolean) }
}

function askedOf(step: ScaleStep | undefined): Asked {
  return step ? { name: step.name, wanted: step.add, tolerance: step.tolerance } : {}
}

/** Is this as it was asked for? Null where nobody can say. */
export function isWithin({ wanted, tolerance }: Asked, grams: number | null): boolean | null {
  if (grams === null || wanted === undefined || wanted === null || tolerance === undefined) return null
  return onTarget(grams, wanted, tolerance) === 'right'
}
