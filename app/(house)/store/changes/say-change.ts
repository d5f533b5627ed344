import { coins, fixed, plain } from '@/lib/base/number-format'
import { allergenChoices } from '@/lib/forms/ingredient-form'
import type { ChangedIngredient, TouchedGlass } from '@/lib/tasks/recipe/read-changes'
import type { SaidChange } from '@/lib/tasks/store/said-change'
import { unitWords } from '@/app/ui/unit-words'

type PriceSaid = Extract<SaidChange, { what: 'price' | 'pack' }>

const figureWords: Readonly<Record<string, readonly [name: string, unit: string]>> = {
  water: ['water', 'g'],
  sugars: ['sugars', 'g'],
  freeSugars: ['free sugars', 'g'],
  fat: ['fat', 'g'],
  protein: ['protein', 'g'],
  energyKcal: ['energy', 'kcal'],
  coffeeSolids: ['coffee solids', 'g'],
  caffeineLow: ['caffeine, at least', 'mg'],
  caffeineHigh: ['caffeine, at most', 'mg'],
  sweetness: ['as sweet as sucrose', 'g'],
  brix: ['sugar', '°Bx'],
  alcohol: ['alcohol', '%'],
}

const stateWords: Readonly<Record<string, string>> = {
  contains: 'contains it',
  'may-contain': 'may contain it',
  'not-named': 'not named on the label',
  'not-stated': 'not stated, label not read',
}

/** What changed, in short sentences: the old, an arrow in words, the new. */
export function sayChange(
  said: SaidChange,
  cafe: { readonly currency: string; readonly allergenList: string },
): string[] {
  if (said.what === 'supplier') return [`Supplier: ${said.before ?? 'not said'}, now ${said.after ?? 'not said'}.`]
  if (said.what !== 'label')
    return [
      `${said.what === 'pack' ? 'Pack' : 'Price'}: ${sayPrice(said.before, cafe.currency)}, now ${sayPrice(said.after, cafe.currency)}.`,
    ]
  const name = (id: string) => allergenChoices(cafe.allergenList).allergens.find((one) => one.id === id)?.name ?? id
  return [
    ...said.allergens.map(
      ({ allergen, was, is }) => `${name(allergen)}: ${stateWords[was] ?? was}, now ${stateWords[is] ?? is}.`,
    ),
    ...(said.alcohol === null ? [] : [`Alcohol by volume: not stated, now ${plain(said.alcohol)} %.`]),
    ...(said.read.was && !said.read.is ? ['Its label had been read, and now counts as unread.'] : []),
    ...said.composition.map(({ name: figure, was, is }) => {
      const [words, unit] = figureWords[figure] ?? [figure, '']
      const where = figure === 'alcohol' ? 'By volume' : 'In 100 g'
      return `${where}, ${words}: ${plain(was)} ${unit}, now ${is === null ? 'not known' : `${plain(is)} ${unit}`}.`
    }),
  ]
}

function sayPrice(then: PriceSaid['before'], currency: string): string {
  if (!then) return 'not known'
  const usable = then.usable === 1 ? '' : `, ${plain(then.usable * 100)} % of it usable`
  return `${coins(then.price, currency)} ${currency} for ${then.packTyped} ${unitWords(then.packUnit)}${usable}`
}

/** "0.77 → 0.81 EUR (+0.04)"; what is not known stays not known. */
export function sayMove({ before, now }: TouchedGlass['cost'], currency: string): string {
  const said = (figure: typeof now) => (figure.known ? coins(figure.value, currency) : 'not known')
  if (!before.known || !now.known) return `${said(before)} → ${said(now)}${now.known ? ` ${currency}` : ''}`
  const moved = now.value - before.value
  if (Math.abs(moved) < 1e-9) return `${said(now)} ${currency}, as before`
  const inCoins = coins(moved, currency)
  const step = /[1-9]/.test(inCoins) ? inCoins : fixed(moved, 4)
  return `${said(before)} → ${said(now)} ${currency} (${moved > 0 ? '+' : ''}${step})`
}

/** What to do about an ingredient, gravest first. */
export function sayGraver({ glasses }: ChangedIngredient): { readonly recipe: string; readonly words: string }[] {
  const graver = glasses.filter(({ allergens }) => allergens.length > 0)
  return graver.map(({ recipe, trial, allergens }) => ({
    recipe: `${recipe.name}, trial ${trial.number}`,
    words: allergens
      .map(({ name, state }) => `${state === 'contains' ? 'contains' : 'may contain'} ${name}`)
      .join(', '),
  }))
}

/** % by volume, where nobody had stated any before; null where that did not change. */
export function alcoholIn({ changes }: ChangedIngredient): number | null {
  return changes.reduce<number | null>(
    (last, { said }) => (said.what === 'label' ? (said.alcohol ?? last) : last),
    null,
  )
}

const kinds = { price: 'price', pack: 'pack', supplier: 'supplier', label: 'label' } as const

/** "price and label" */
export function sayKinds({ changes }: ChangedIngredient): string {
  const words = [...new Set(changes.map(({ said }) => kinds[said.what]))]
  return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1) ?? ''}`
}
