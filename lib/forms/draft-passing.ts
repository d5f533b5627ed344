import { readNumber } from '@/lib/base/typed-number'
import { usualDensity, type Part } from '@/lib/drink/part'
import { gramsOf } from '@/lib/drink/unit'
import { ingredientForms, ingredientKinds, isAllergen } from './ingredient-form'
import { AMOUNT, moneyField } from './number-fields'

/** Reads one field of a line; every value of one that may be ticked several times. */
export interface TypedLine {
  one(name: string): string
  all(name: string): readonly string[]
}

/** A part that is only a name so far, and what somebody said it is: nothing else is known of it, and the figures say so. */
export function newPart(line: TypedLine): Part {
  const name = line.one('newName').trim()
  const kind = ingredientKinds.find((one) => one === line.one('newKind')) ?? 'other'
  const form = ingredientForms.find((one) => one === line.one('newForm')) ?? 'liquid'
  const usual = usualDensity(kind, form)
  return {
    ref: 'new',
    name: name === '' ? 'something not named yet' : name,
    kind,
    form,
    density: usual,
    ...(usual !== null && { densityIsAssumed: true }),
    costPerGram: null,
    composition: null,
    allergens: {},
    labelRead: false,
    preparation: null,
  }
}

/** A part with what its line says of its label and its pack, as saving the sheet would keep it. */
export function withPassing(part: Part, line: TypedLine, currencyDigits: number): Part {
  if (part.preparation !== null) return part
  const said = part.labelRead ? [] : line.all('contains').filter(isAllergen)
  return {
    ...part,
    labelRead: part.labelRead || line.one('labelRead') === 'on',
    allergens: { ...part.allergens, ...Object.fromEntries(said.map((id) => [id, 'contains' as const])) },
    costPerGram: part.costPerGram ?? perGram(part, line, currencyDigits),
  }
}

function perGram({ density }: Part, line: TypedLine, currencyDigits: number): number | null {
  const price = readNumber(line.one('price'), moneyField(currencyDigits))
  const pack = readNumber(line.one('pack'), AMOUNT)
  if (!price.ok || !pack.ok) return null
  const grams = gramsOf(pack.value, line.one('packUnit') || 'g', density)
  return grams.ok && grams.value > 0 ? price.value / grams.value : null
}
