import { plain } from '@/lib/base/number-format'
import type { ShareRefusal } from '@/lib/drink/shares'

type Detail = Readonly<Record<string, string>> | undefined

/** Lines in parts, and nobody said how much one is. */
export const PART_MISSING = 'Lines are given in parts: how many grams is one part?'

export const partWords = { empty: PART_MISSING, 'too-much': 'One part of more than 2 kg cannot be kept.' } as const

/** Why a share of the glass is no amount, as the sentence beside it. @param detail  as `gramsOfShares` gives it */
export function sayShare(reason: ShareRefusal, detail: Detail): string {
  switch (reason) {
    case 'share-of-nothing':
      return 'Percent of what? Every line is a share, and nothing says how much the glass is. Give at least one line in grams.'
    case 'shares-too-much':
      return `Percent of the whole glass: together they are ${plain(Number(detail?.['percent']), 3)} %, which leaves nothing for the other lines. They must stay below 100 % together.`
    case 'share-of-grounds':
      return 'Percent is of what is in the glass, and dry coffee does not go in, only what is brewed from it. Type its grams.'
    case 'share-of-unknown':
      return `Percent of the whole glass, which is not known yet. Missing: ${detail?.['missing'] ?? 'another line'}.`
  }
}
