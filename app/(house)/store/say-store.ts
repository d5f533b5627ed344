import { plain } from '@/lib/base/number-format'

/** The words of the store's kinds, as a person reads them. */
export const kindChoices = [
  { value: 'coffee', words: 'coffee' },
  { value: 'sweetener', words: 'sweetener' },
  { value: 'milk', words: 'milk or plant drink' },
  { value: 'water', words: 'water' },
  { value: 'ice', words: 'ice' },
  { value: 'other', words: 'other' },
] as const

export const formChoices = [
  { value: 'liquid', words: 'liquid, as poured' },
  { value: 'powder', words: 'dry: sugar, powder, ground spice' },
  { value: 'grounds', words: 'ground coffee, brewed' },
  { value: 'ice', words: 'ice' },
] as const

export const preparationChoices = [
  { value: 'syrup', words: 'Syrup', help: 'What boils off is water: its sugar stays.' },
  {
    value: 'immersion-brew',
    words: 'Brew by immersion',
    help: 'Plunger pot, cold steep: the liquid in the grounds is as strong as the beverage.',
  },
  {
    value: 'percolation-brew',
    words: 'Brew by percolation',
    help: 'Pour-over, drip, stovetop: fresh water rinses the grounds.',
  },
  {
    value: 'infusion',
    words: 'Infused and strained',
    help: 'Tea, spices, zest in a liquid: what is strained out gives its taste and keeps back liquid.',
  },
  { value: 'other', words: 'Another mix', help: 'A milk blend, a sauce: what is lost is the mix itself.' },
] as const

const of = (choices: readonly { readonly value: string; readonly words: string }[], value: string) =>
  choices.find((one) => one.value === value)?.words.toLowerCase() ?? value

export const sayKind = (kind: string) => of(kindChoices, kind)
export const sayPreparation = (kind: string) => of(preparationChoices, kind)

interface Measured {
  readonly pumpUl: number | null
  readonly spoonMg: number | null
}

/** What the house measured of its pump and spoon; null where it did neither. */
export function sayMeasured({ pumpUl, spoonMg }: Measured): string | null {
  const pump = pumpUl === null ? [] : [`one press of its pump gives ${plain(pumpUl / 1000, 3)}\u00a0ml`]
  const spoon = spoonMg === null ? [] : [`a level teaspoon of it weighs ${plain(spoonMg / 1000, 3)}\u00a0g`]
  const said = [...pump, ...spoon].join('; ')
  return said === '' ? null : `As measured here, ${said}.`
}

export const storeTrail = { href: '/store', words: 'Store' } as const

/** What a preparation is and how the house keeps it, in a sentence. */
export function sayWhatItIs(preparation: {
  readonly kind: string
  readonly storageDeciC: number | null
  readonly keepsHours: number | null
  readonly archivedAt: Date | null
}): string {
  const { kind, storageDeciC, keepsHours, archivedAt } = preparation
  const at = storageDeciC === null ? '' : `, kept at ${storageDeciC / 10} °C`
  const time = keepsHours ? `, for ${keepsHours} h` : ''
  return `${sayPreparation(kind)}${at}${time}.${archivedAt ? ' Put aside.' : ''}`
}
