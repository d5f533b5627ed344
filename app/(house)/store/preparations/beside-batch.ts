import { sayNoPump } from '@/app/ui/unit-words'

export const goneFromStore = 'This is not in the store any more.'

/** Why a batch was not kept, as a task says it. */
export interface Refused {
  readonly reason: string
  readonly detail?: Readonly<Record<string, string>>
}

/** A refusal lands beside the field it is about. */
export function besideBatch({ reason, detail = {} }: Refused): [field: string, words: string] {
  const line = `inputs[${detail['line'] ?? '0'}]`
  const words: Readonly<Record<string, [string, string]>> = {
    'part-gone': [`${line}.part`, 'This is not in the store any more. Please choose again.'],
    'density-missing': [
      `${line}.density`,
      `${detail['name'] ?? 'This'} is typed as a volume: how many grams is a ml of it? Or type grams.`,
    ],
    'pump-missing': [`${line}.unit`, sayNoPump(detail['name'])],
    'too-little': [`${line}.amount`, 'This is less than a milligram: too little to be kept.'],
    'too-much': [`${line}.amount`, 'This is more than two tonnes.'],
    'output-too-heavy': ['output', `More came out than went in (${detail['grams'] ?? ''} g). Was the pot tared?`],
    'no-grounds': ['inputs', 'A brew needs its ground coffee among the inputs.'],
    'too-few-grounds': ['inputs', 'So little ground coffee cannot have kept so much water. Look at the units.'],
    loop: ['inputs', `A preparation cannot contain itself: ${detail['path'] ?? ''}.`],
    'too-deep': [
      'inputs',
      `At most ${detail['most'] ?? '12'} preparations may stand one inside the other. Make this one of fewer.`,
    ],
    'nothing-strained': ['inputs', 'What is infused is strained out again: mark it.'],
    'all-strained': ['inputs', 'Something must stay in: what is it infused into?'],
    'not-weighed': ['output', 'Weigh what came out: it cannot be added here later.'],
    frozen: ['', 'This batch was poured meanwhile, so it stays as it is. Correct it by a new batch.'],
  }
  return words[reason] ?? ['', goneFromStore]
}
