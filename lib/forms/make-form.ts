import { readNumber, type NumberField } from '@/lib/base/typed-number'
import { MOST_MADE } from '@/lib/drink/make-many'
import { MOST_ML } from '@/lib/drink/to-ml'
import { PERCENT, sayNumber, wholeField } from './number-fields'

/** In what one counts: glasses, or millilitres as built or strained off the ice. */
export const MAKE_COUNTS = ['glasses', 'built', 'strained'] as const

/** One of them. */
export type MakeCount = (typeof MAKE_COUNTS)[number]

/** What somebody wants made: `spare` is a share made beyond it. */
export interface MakeAsked {
  readonly count: MakeCount
  readonly amount: number
  readonly spare: number
}

/** What stands in the fields, whatever was typed, and beside them why it was not taken. */
export interface MakeForm {
  readonly typed: { readonly count: MakeCount; readonly amount: string; readonly spare: string }
  readonly problems: { readonly amount?: string; readonly spare?: string }
  /** null until an amount was typed that can be made */
  readonly asked: MakeAsked | null
}

const VOLUME: NumberField = Object.freeze({ least: 0, most: MOST_ML, aboveZero: true, step: 0.1 })
const isCount = (word: string | undefined): word is MakeCount => MAKE_COUNTS.some((count) => count === word)

/** Reads what a page was asked for behind its question mark. */
export function readMakeForm(query: Readonly<Record<string, string | undefined>>): MakeForm {
  const count = isCount(query['count']) ? query['count'] : 'glasses'
  const typed = { count, amount: query['amount'] ?? '', spare: query['spare'] ?? '' }
  const field = count === 'glasses' ? wholeField(MOST_MADE, 1) : VOLUME
  const amount = readNumber(typed.amount, field)
  const spare = readNumber(typed.spare.trim() === '' ? '0' : typed.spare, PERCENT)
  const problems = {
    ...(amount.ok || query['amount'] === undefined ? {} : { amount: sayNumber(amount, typed.amount, field) }),
    ...(spare.ok ? {} : { spare: sayNumber(spare, typed.spare, PERCENT) }),
  }
  const asked = amount.ok && spare.ok ? { count, amount: amount.value, spare: spare.value / 100 } : null
  return { typed, problems, asked }
}
