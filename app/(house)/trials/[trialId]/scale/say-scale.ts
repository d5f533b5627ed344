import { fixed, plain } from '@/lib/base/number-format'
import type { TooCoarse } from '@/lib/drink/line'
import type { ScaleStep } from '@/lib/drink/scale'
import { offBy } from '@/lib/forms/scale-steps'
import { sayPresses } from '@/app/ui/unit-words'
import { numberRead, shown } from './read-weight'

/** A dose that such a scale cannot weigh, and what to do instead: the same words on the card and beside the scale. */
export function sayTooCoarse({ scale, glasses }: TooCoarse): string {
  const shows = `${plain(scale.division, 3)} g`
  const which = scale.name === null ? `A scale that shows ${shows}` : `${scale.name}, which shows ${shows},`
  return `${which} cannot weigh this: take a finer one, or pre-mix it for ${glasses} glasses.`
}

/** A dose of another batch than the sheet means: what it is for, and what the sheet says. */
export function sayCorrected({ batch, sheetGrams }: NonNullable<ScaleStep['corrected']>): string {
  return `Corrected for batch ${batch}, untasted: the sheet says ${fixed(sheetGrams, 1)} g.`
}

/** Why no dose stands here: the sheet's is of another batch, and nobody can say what holds the same sugar. */
export function sayUnread({ batch, sheetGrams }: NonNullable<ScaleStep['unread']>): string {
  return `Not the ${fixed(sheetGrams, 1)} g of the sheet: batch ${batch} is another batch, and the °Bx of one of the two is not known. Read it and have it written down first.`
}

/** "2 presses of the pump", as it was typed; "about 2" or "1 to 2" where only the weight says it. */
export function sayStepPresses({ is, least, most }: NonNullable<ScaleStep['presses']>): string {
  if (is === 'typed') return sayPresses(least)
  return is === 'about' ? `about ${sayPresses(least)}` : `${least} to ${sayPresses(most)}`
}

/** What is wrong with a weight that was read off, in the moment it is typed; null where nothing is, or nothing can be said. */
export function sayOff(
  wanted: number | null,
  { tolerance, decimals }: Pick<ScaleStep, 'tolerance' | 'decimals'>,
  typed: string,
): string | null {
  const off = offBy(wanted, tolerance, numberRead(typed, shown))
  if (off === null) return null
  const words = `${fixed(Math.abs(off), decimals)} g ${off > 0 ? 'too much' : 'short'}, beyond ± ${fixed(tolerance, decimals)} g.`
  return `${words} ${off > 0 ? 'Begin this step again, or note what it became.' : 'Add the rest before you go on.'}`
}

/** What became of weights that somebody read off: said where they were typed. */
export function sayKept(kept: Kept | null): string | null {
  if (kept === null) return null
  const { count, outcome } = kept
  const weighings = count === 1 ? 'This weighing' : `${count} weighings`
  const is = count === 1 ? 'is' : 'are'
  switch (outcome) {
    case 'kept':
      return `${weighings} ${is} kept in the house.`
    case 'within':
      return `${weighings} ${is} kept in the house, every weight within its tolerance.`
    case 'outside':
      return `${weighings} ${is} kept in the house; something was beyond its tolerance.`
    case 'refused':
      return `${weighings} could not be kept: the house does not take weights of this trial any more.`
    case 'nothing':
      return 'Nothing was read off, so nothing is kept.'
  }
}

export interface Kept {
  readonly count: number
  readonly outcome: 'kept' | 'within' | 'outside' | 'refused' | 'nothing'
}
