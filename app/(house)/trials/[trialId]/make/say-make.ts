import { plain } from '@/lib/base/number-format'
import type { MakeAsked, MakeCount } from '@/lib/forms/make-form'
import type { OnShelf } from '@/lib/tasks/bar/on-shelf'
import type { ToMake } from '@/lib/tasks/trial/read-make'
import type { Lacking } from '@/lib/drink/make-many'

/** In what one counts, as its choice says it. */
export const countWords: Readonly<Record<MakeCount, string>> = {
  glasses: 'Glasses',
  built: 'Millilitres as built, ice held under',
  strained: 'Millilitres strained off the ice',
}

const made: Readonly<Record<MakeCount, (amount: string) => string>> = {
  glasses: (amount) => (amount === '1' ? '1 glass' : `${amount} glasses`),
  built: (amount) => `${amount} ml as built`,
  strained: (amount) => `${amount} ml strained off the ice`,
}

/** What stands on the page, in a sentence. */
export function sayMake(asked: MakeAsked | null, make: ToMake | Lacking | null): string {
  if (asked === null || make === null) return 'For how many glasses, or how many millilitres?'
  const what = made[asked.count](plain(asked.amount, 1))
  if (!make.known) return `${what} cannot be said yet. To be known first: ${make.missing.join('; ')}.`
  const spare = asked.spare > 0 ? `, with ${plain(100 * asked.spare, 2)} % to spare` : ''
  const melt = make.meltGrams === null || asked.count === 'built' ? '' : ` ${sayMelt(make.meltGrams)}`
  const takes = asked.count === 'glasses' && asked.amount !== 1 ? 'take' : 'takes'
  return `What ${what} ${takes}${spare}.${melt}`
}

const sayMelt = (grams: number) =>
  grams > 0
    ? `${plain(grams, 0)} g of it is ice that melts, by the temperatures of this sheet: stir until it has settled, then strain.`
    : 'No ice melts into it.'

/** "batch 3", "batches 3 and 4" */
const sayBatches = (batches: readonly OnShelf[]) =>
  `${batches.length === 1 ? 'batch' : 'batches'} ${batches.map(({ number }) => String(number)).join(' and ')}`

/**
 * What is there of a preparation, and what that leaves to do.
 *
 * @param batches  of it, in date, at least one
 * @param toMake   g, of what is listed to be made; null where nothing of it is
 */
export function sayOnShelf(batches: readonly OnShelf[], toMake: number | null): string {
  const said = batches.filter(({ grams }) => grams !== null)
  const unsaid = batches.filter(({ grams }) => grams === null)
  const unknown = `How much is left of ${sayBatches(unsaid)} is not known: weigh ${unsaid.length === 1 ? 'it' : 'them'}, and say so above.`
  if (said.length === 0) return `${unknown} The list makes all anew.`
  const have = `Have ${plain(
    said.reduce((all, { grams }) => all + (grams ?? 0), 0),
    1,
  )} g of ${sayBatches(said)}`
  if (toMake === null) return `${have}: that is enough.`
  return `${have}, make ${plain(toMake, 1)} g more.${unsaid.length > 0 ? ` ${unknown}` : ''}`
}
