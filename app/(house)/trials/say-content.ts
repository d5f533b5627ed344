import { PART_MISSING, sayShare } from '@/lib/forms/say-share'
import type { ContentRefusal } from '@/lib/tasks/trial/trial-content'
import { sayNoPump } from '@/app/ui/unit-words'

type Detail = Readonly<Record<string, string>> | undefined

/** A refusal about one line of a sheet, at the field that it is about. */
export function besideLine(reason: ContentRefusal, detail: Detail): [field: string, words: string] {
  const line = `lines[${detail?.['line'] ?? '0'}]`
  const where: Readonly<Record<ContentRefusal, [field: string, words: string]>> = {
    'density-missing': [
      `${line}.density`,
      `${detail?.['name'] ?? 'This'} is typed as a volume: how many grams is a ml of it? Or type grams.`,
    ],
    'part-missing': ['partGrams', PART_MISSING],
    'share-of-nothing': [`${line}.amount`, sayShare('share-of-nothing', detail)],
    'shares-too-much': [`${line}.amount`, sayShare('shares-too-much', detail)],
    'share-of-grounds': [`${line}.amount`, sayShare('share-of-grounds', detail)],
    'share-of-unknown': [`${line}.amount`, sayShare('share-of-unknown', detail)],
    'pump-missing': [`${line}.unit`, sayNoPump(detail?.['name'])],
    'kind-missing': [`${line}.newKind`, 'Say what it is.'],
    'price-unread': [`${line}.price`, 'Type the price of a pack.'],
    'pack-unweighable': [`${line}.pack`, 'What such a pack weighs is not known: type its grams.'],
    'currency-changed': ['', 'The café counts in another currency since this page was opened. Load it again.'],
    'too-little': [`${line}.amount`, 'This is less than a milligram: too little to be kept.'],
    'too-much': [`${line}.amount`, 'This is more than two tonnes.'],
    'part-gone': [`${line}.part`, 'This was put aside in the meantime. Please choose again.'],
  }
  return where[reason]
}
