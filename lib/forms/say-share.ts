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
      return 'Percent of what? Every line is a share: give at least one in grams.'
    case 'shares-too-much':
      return `Together the shares are ${plain(Number(detail?.['percent']), 3)} % of the glass, and nothing is left for the other lines: stay below 100 %.`
    case 'share-of-grounds':
      return 'Percent is of what is in the glass, and dry coffee does not go in. Type its grams.'
    case 'share-of-unknown':
      return `Percent of the whole glass, which is not known yet. Missing: ${detail?.['missing'] ?? 'another line'}.`
  }
}

/** The same where other lines of the sheet cannot be counted yet. @param lines  as the page counts them, from 1 */
export const sayShareWaits = (lines: readonly number[]) =>
  `Percent of the whole glass, which is not known while line ${lines.join(', ')} is not.`
