import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { doseOf, type DoseRefusal } from '@/lib/drink/dose'
import { lineOf, type Part } from '@/lib/drink/part'
import { gramsOfShares, type ShareRefusal } from '@/lib/drink/shares'
import type { Brew } from '@/lib/drink/trial'
import { PART, PERCENT } from '@/lib/drink/unit'
import { isNew, type TrialLineSent, type TrialSent } from '@/lib/forms/trial-form'
import { milligramsOf, type AmountRefusal } from '../milligrams'
import type { Store, StorePart } from '../store/store-part'
import type { inPassing, Meant, PassingRefusal } from './made-in-passing'

export type LineRefusal = 'part-gone' | 'part-missing' | DoseRefusal | ShareRefusal | PassingRefusal | AmountRefusal

type Amount = NonNullable<TrialLineSent['amount']>

/** A line that says how much: what it is made of, and its milligrams as they are kept. */
export interface LineDose {
  /** of the sent row */
  readonly place: number
  readonly line: TrialLineSent & { readonly amount: Amount }
  readonly ref: string
  readonly known: StorePart | null
  readonly mg: number
  /** what one unit typed weighs, g: of a millilitre its density, of a part what the sheet says; null where grams follow by themselves */
  readonly perUnit: number | null
}

/** A line before its grams are known; of a share of the glass they follow from all the others. */
type Meaning = Omit<LineDose, 'mg'> & { readonly part: Part; readonly mg: number | null }

/**
 * How much is each line of a sent sheet? Shares of the glass last, from the others as they are kept: so they are shares of
 * what is weighed. detail.line says at which row something is refused.
 */
export async function dosesOf(
  passing: Pick<ReturnType<typeof inPassing>, 'take'>,
  sheet: TrialSent,
  store: Store,
  brew: Brew | null,
): Promise<Result<readonly LineDose[], LineRefusal>> {
  const meant: Meaning[] = []
  for (const [place, line] of sheet.lines.entries()) {
    if (!line.amount) continue
    const taken = await passing.take(line)
    if (!taken.ok) return no(taken.reason, { line: String(place) })
    const { ref } = taken.value
    const known = store.get(ref) ?? null
    if (!known && !isNew(line)) return no('part-gone', { line: String(place) })
    const said = {
      place,
      line: { ...line, amount: line.amount },
      ref,
      known,
      part: known ?? freshPart(taken.value, line),
    }
    const dose = doseTyped(said, sheet.partGrams)
    if (!dose.ok) return no(dose.reason, { line: String(place), name: known?.name ?? line.newName ?? 'this line' })
    if (dose.value === null) {
      meant.push({ ...said, mg: null, perUnit: null })
      continue
    }
    const mg = milligramsOf(dose.value.grams)
    if (!mg.ok) return no(mg.reason, { line: String(place) })
    meant.push({ ...said, mg: mg.value, perUnit: dose.value.density })
  }
  return withShares(meant, brew)
}

/** Grams of what was typed, and what one unit of it weighs; null of a share, which is no amount by itself. */
function doseTyped({ line, part }: Pick<Meaning, 'line' | 'part'>, partGrams: number | undefined) {
  const { amount, unit, density } = line
  if (unit === PERCENT) return ok(null)
  if (unit === PART) {
    return partGrams === undefined ? no('part-missing') : ok({ grams: amount.value * partGrams, density: partGrams })
  }
  const typed = density ? { value: density.value, of: line.densityFor ?? '' } : null
  return doseOf({ amount: amount.value, unit }, line.part ?? 'new', part, typed)
}

function withShares(meant: readonly Meaning[], brew: Brew | null): Result<readonly LineDose[], LineRefusal> {
  const lines = meant.map(({ part, mg, line, place }) =>
    lineOf(part, {
      key: String(place),
      role: part.kind,
      targetGrams: mg === null ? Number.NaN : mg / 1000,
      typed: { amount: line.amount.value, unit: line.unit, density: null },
    }),
  )
  const shares = gramsOfShares(lines, brew)
  if (!shares.ok) return no(shares.reason, { ...shares.detail, line: shares.detail?.['key'] ?? '0' })
  const doses: LineDose[] = []
  for (const { part: _, ...one } of meant) {
    const share = one.mg === null ? milligramsOf(shares.value.get(String(one.place)) ?? 0) : ok(one.mg)
    if (!share.ok) return no(share.reason, { line: String(one.place) })
    doses.push({ ...one, mg: share.value })
  }
  return ok(doses)
}

/** A name that is new, as it enters the glass; what is in it does not matter for how much it is. */
function freshPart({ ref, density, kind, form }: Meant, { newName }: TrialLineSent): Part {
  return {
    ref,
    name: newName ?? 'this line',
    kind,
    form,
    density,
    costPerGram: null,
    composition: null,
    allergens: {},
    labelRead: false,
    preparation: null,
  }
}
