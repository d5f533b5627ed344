import { coins, currencyDigits, fixed, plain } from '@/lib/base/number-format'
import type { Compared } from '@/lib/drink/instead-of'
import type { Instead } from '@/lib/tasks/trial/read-instead'

type Proposal = Instead['proposals'][number]

export const figureWords: Readonly<Record<Compared, string>> = {
  fat: 'Fat',
  sugars: 'Sugars',
  solids: 'Solids',
  protein: 'Protein',
}

/** What goes on the scale, in the order of its weight: "30 g Evaporated milk + 30 g Drinking water". */
export const sayParts = ({ parts }: Pick<Proposal, 'parts'>): string =>
  parts.map(({ part, mg }) => `${plain(mg / 1000, 2)} g ${part.name}`).join(' + ')

/** How far one figure is off, per 100 g. Nothing is called the same. */
export function sayDifference(grams: number | null): string {
  if (grams === null) return 'not compared'
  const shown = fixed(Math.abs(grams), 1)
  return shown === '0.0' ? 'under 0.05 g apart' : `${shown} g ${grams > 0 ? 'more' : 'less'}`
}

/** What one glass costs more or less; not known where a price is missing. */
export function sayCostDifference(amount: number | null, currency: string): string {
  if (amount === null) return 'not known'
  const smallest = 10 ** -(currencyDigits(currency) ?? 2)
  const money = (value: number) => `${coins(value, currency)}\u00a0${currency}`
  if (Math.abs(amount) < smallest / 2) return `under ${money(smallest)} apart`
  return `${money(Math.abs(amount))} ${amount > 0 ? 'more' : 'less'}`
}

/** Which figures could not be compared, and for want of what: "protein (not known of Oat drink)". */
export const sayNotCompared = ({ notCompared }: Pick<Proposal, 'notCompared'>): readonly string[] =>
  notCompared.map(({ figure, of }) => `${figureWords[figure].toLowerCase()} (not known of ${of.join(', ')})`)

const marks = { contains: 'contains', 'may-contain': 'may contain', 'not-stated': 'does not state' } as const

/** What it brings that the line did not, by what labels say: "contains Soybeans (Soy drink)". */
export function sayGraver({ graver, unread }: Pick<Proposal, 'graver' | 'unread'>): readonly string[] {
  return (['contains', 'may-contain', 'not-stated'] as const).flatMap((state) => {
    // Of a label that nobody read nothing is stated: that is said once, by its name.
    if (state === 'not-stated' && unread.length > 0) return []
    const rows = graver.filter((row) => row.state === state)
    const named = rows.map(({ name, from }) => (state === 'not-stated' ? name : `${name} (${from.join(', ')})`))
    return rows.length > 0 ? [`${marks[state]} ${named.join(', ')}`] : []
  })
}

/** Why there is nothing to propose, or what to make of what there is. */
export function sayInstead({ line, compared, proposals }: Pick<Instead, 'line' | 'compared' | 'proposals'>): string {
  if (compared === 'not-this-kind')
    return `Fat, sugars, solids and protein do not tell what ${line.name} is like: nothing is proposed.`
  if (compared === 'nothing-known')
    return `Neither fat, sugars, solids nor protein of ${line.name} is known: enter what its label says first.`
  if (proposals.length === 0)
    return `Nothing on the shelf is of the same kind as ${line.name}, with figures to compare.`
  return 'Nearest by fat, sugars, solids and protein; taste it. Aroma, sourness, thickness and colour are not compared.'
}
