import * as z from 'zod'
import { ALLERGEN_LISTS } from '@/lib/drink/allergen'
import type { Composition } from '@/lib/drink/trial'
import { compositionProblems, densityProblems } from '@/lib/drink/ingredient-problem'
import { findUnit } from '@/lib/drink/unit'
import {
  amount,
  brix,
  countFromZero,
  density,
  doseFields,
  note,
  number,
  price,
  sameCurrency,
  whole,
  words,
  type Currency,
} from './fields'
import { PERCENT } from './number-fields'

export const ingredientKinds = ['coffee', 'sweetener', 'milk', 'water', 'ice', 'other'] as const
export const ingredientForms = ['liquid', 'powder', 'grounds', 'ice'] as const

/** Every allergen of every list, once: a café may move to another law. */
const allergenIds: readonly string[] = [
  ...new Set(Object.values(ALLERGEN_LISTS).flatMap((list) => list.allergens.map((one) => one.id))),
]

export const isAllergen = (id: string): boolean => allergenIds.includes(id)

/** The allergens of one law's list as a form shows them. */
export function allergenChoices(list: string) {
  const found = Object.values(ALLERGEN_LISTS).find((one) => one.id === list) ?? ALLERGEN_LISTS.eu
  return { source: found.source, allergens: found.allergens }
}

const per100 = (unit = 'g in 100 g', most = 100, step = 0.001) =>
  countFromZero(`Type ${unit}.`, most, `This is more than there can be ${unit}.`, step)
const mark = z.enum(['contains', 'may-contain', 'not-stated']).default('not-stated')
/** A day that is in the calendar: the thirty-first of February is not. */
function isDay(text: string): boolean {
  const at = /^\d{4}-\d{2}-\d{2}$/.test(text) ? Date.parse(`${text}T00:00:00Z`) : Number.NaN
  return !Number.isNaN(at) && new Date(at).toISOString().startsWith(text)
}

const day = z.string().refine(isDay, 'Type a date.').optional()

const fields = {
  name: words('Name it as its label does.', 80),
  kind: z.enum(ingredientKinds, { error: 'Choose what it is.' }),
  form: z.enum(ingredientForms, { error: 'Choose how it enters the glass.' }),
  density: density().optional(),
  densityIsAssumed: z.literal('on').optional(),
  brix: brix().optional(),
  water: per100().optional(),
  sugars: per100().optional(),
  freeSugars: per100().optional(),
  fat: per100().optional(),
  protein: per100().optional(),
  energy: per100('kcal in 100 g', 10_000, 0.1).optional(),
  solids: per100().optional(),
  caffeineLow: per100('mg in 100 g', 10_000, 0.1).optional(),
  caffeineHigh: per100('mg in 100 g', 10_000, 0.1).optional(),
  sweetness: countFromZero('Type grams of sucrose.', 100_000, 'Nothing is that sweet.', 1).optional(),
  /** % by volume; 0 says it has none, left empty says nothing */
  alcohol: countFromZero('Type % by volume.', 100, 'This is more than 100 %.', 0.01).optional(),
  ...doseFields,
  openHours: whole('Type hours.', 8760, 'This is more than a year.').optional(),
  keepsCold: note(200),
  supplier: note(80),
  source: note(200),
  sourceDay: day,
  note: note(),
  allergens: z.preprocess((sent) => sent ?? {}, z.object(Object.fromEntries(allergenIds.map((id) => [id, mark])))),
  labelRead: z.literal('on').optional(),
}

/** Fields that the form calls otherwise; what is about the whole composition stands beside its sugars. */
const OWN_NAMES: Readonly<Record<string, string>> = { coffeeSolids: 'solids', energyKcal: 'energy', '': 'sugars' }

/** What a label says of an ingredient. What cannot be true is refused at its field. */
export const IngredientForm = z.object(fields).superRefine((sent, context) => {
  const say = (path: string, message: string) => context.addIssue({ code: 'custom', path: [path], message })
  const density = sent.form === 'liquid' ? (sent.density?.value ?? null) : null
  for (const problem of densityProblems('density', sent.name, density, null)) say(problem.field, problem.message)
  // what is only doubtful is asked about on every sheet that it stands on; the label may say it all the same
  for (const problem of compositionProblems('', sent.name, compositionOf(sent)).filter(({ doubt }) => !doubt)) {
    const field = problem.field.replace(/^\./, '')
    say(OWN_NAMES[field] ?? field, problem.message)
  }
  if ((sent.caffeineLow === undefined) !== (sent.caffeineHigh === undefined))
    say(
      sent.caffeineLow === undefined ? 'caffeineLow' : 'caffeineHigh',
      'Give both ends; the same number twice if it is known.',
    )
})
export type IngredientSent = z.infer<typeof IngredientForm>

type Per100 = Pick<
  z.infer<z.ZodObject<typeof fields>>,
  | 'water'
  | 'sugars'
  | 'freeSugars'
  | 'fat'
  | 'protein'
  | 'energy'
  | 'solids'
  | 'caffeineLow'
  | 'caffeineHigh'
  | 'sweetness'
>

function compositionOf(sent: Per100): Composition {
  return {
    water: sent.water ?? null,
    sugars: sent.sugars ?? null,
    freeSugars: sent.freeSugars ?? null,
    fat: sent.fat ?? null,
    protein: sent.protein ?? null,
    energyKcal: sent.energy ?? null,
    coffeeSolids: sent.solids ?? null,
    caffeineLow: sent.caffeineLow ?? null,
    caffeineHigh: sent.caffeineHigh ?? null,
    sweetness: sent.sweetness ?? null,
  }
}

/** A price and the pack it buys, in the café's currency. */
export const priceForm = (cafe: Currency) =>
  z
    .object({
      currency: z.string().optional(),
      price: price('Type the price of a pack.', cafe),
      pack: amount('A price needs a pack: how much do you get for it?'),
      packUnit: z.string({ error: 'Choose a unit.' }).refine((id) => findUnit(id) !== null, 'Choose one of the units.'),
      usable: number(
        { ...PERCENT, aboveZero: true },
        { 'not-above-zero': 'Some of it must be usable.', 'too-much': 'This is more than 100 %.' },
      ).optional(),
      since: day,
      note: note(200),
    })
    .superRefine(sameCurrency(cafe, 'price'))
export type PriceSent = z.infer<ReturnType<typeof priceForm>>
