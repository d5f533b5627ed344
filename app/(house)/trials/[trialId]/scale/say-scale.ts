import { fixed, plain } from '@/lib/base/number-format'
import type { TooCoarse } from '@/lib/drink/line'
import type { ScaleStep } from '@/lib/drink/scale'
import { offBy } from '@/lib/forms/scale-steps'
import { weightRead } from './kept-weights'

/** A dose that such a scale cannot weigh, and what to do instead: the same words on the card and beside the scale. */
export function sayTooCoarse({ division, glasses }: TooCoarse): string {
  return `A scale that shows ${plain(division, 1)} g cannot weigh this: take a finer one, or pre-mix it for ${glasses} glasses.`
}

/** What is wrong with a weight that was read off, in the moment it is typed; null where nothing is, or nothing can be said. */
export function sayOff(step: Pick<ScaleStep, 'add' | 'tolerance'>, typed: string): string | null {
  const off = offBy(step, weightRead(typed))
  if (off === null) return null
  const words = `${fixed(Math.abs(off), 1)} g ${off > 0 ? 'too much' : 'short'}, beyond ± ${fixed(step.tolerance, 1)} g.`
  return `${words} ${off > 0 ? 'Begin this step again, or note what it became.' : 'Add the rest before you go on.'}`
}
