import { readNumber, type NumberField } from '@/lib/base/typed-number'
import { USUAL_SIZES } from '@/lib/drink/sizes'
import { printed, sayNumber } from './number-fields'

/** US fl oz */
export const usualSizes = USUAL_SIZES

/** What part of each glass is ice and what coffee: as typed, why it was not taken, and the shares where it was. */
export interface SizesForm {
  readonly typed: { readonly ice: string; readonly coffee: string }
  readonly problems: { readonly ice?: string; readonly coffee?: string }
  /** fractions; null: as on the sheet */
  readonly shares: { readonly ice: number | null; readonly coffee: number | null }
  /** nothing was asked: the shares that the recipe keeps hold */
  readonly isBare: boolean
}

/** Shares that a recipe keeps, as the fields hold them. @param shares  fractions */
export function typedShares({ ice, coffee }: SizesForm['shares']): SizesForm['typed'] {
  const typed = (share: number | null) => printed(share === null ? null : share * 100, SHARE)
  return { ice: typed(ice), coffee: typed(coffee) }
}

const SHARE: NumberField = Object.freeze({ least: 0, most: 100, step: 0.1 })

/** Reads what a page was asked for behind its question mark; a field left empty keeps the share that was on the sheet. */
export function readSizesForm(query: Readonly<Record<string, string | undefined>>): SizesForm {
  const typed = { ice: query['ice'] ?? '', coffee: query['coffee'] ?? '' }
  const [ice, coffee] = [readShare(typed.ice), readShare(typed.coffee)]
  const both = (ice.share ?? 0) + (coffee.share ?? 0) > 1
  const tooMuch = 'Ice and coffee together are more than the glass.'
  return {
    typed,
    problems: {
      ...(ice.problem === null ? {} : { ice: ice.problem }),
      ...(coffee.problem !== null ? { coffee: coffee.problem } : both ? { coffee: tooMuch } : {}),
    },
    isBare: query['ice'] === undefined && query['coffee'] === undefined,
    shares: both ? { ice: null, coffee: null } : { ice: ice.share, coffee: coffee.share },
  }
}

function readShare(typed: string): { readonly share: number | null; readonly problem: string | null } {
  if (typed.trim() === '') return { share: null, problem: null }
  const read = readNumber(typed, SHARE)
  return read.ok ? { share: read.value / 100, problem: null } : { share: null, problem: sayNumber(read, typed, SHARE) }
}
