import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { doseOf, type DoseRefusal } from '@/lib/drink/dose'
import type { FormulaSent } from '@/lib/forms/formula-form'
import { milligramsOf, type AmountRefusal } from '../milligrams'
import type { World } from '../world'
import type { Store } from './store-part'

export type FormulaRefusal =
  'part-gone' | DoseRefusal | 'no-grounds' | 'target-too-heavy' | 'nothing-strained' | AmountRefusal

const orNull = (value: number | undefined, times: number) => (value === undefined ? null : Math.round(value * times))

/** Turns a sent formula into rows; detail.line says which input a refusal is about. */
export function formulaContent(world: World, sent: FormulaSent, store: Store, kind: string) {
  const read = inputsOf(world, sent, store, kind)
  if (!read.ok) return read
  const inputs = read.value
  const into = inputs.reduce((sum, { amountMg }) => sum + amountMg, 0)
  const target = orNull(sent.target?.value, 1000)
  if (target !== null && target > into) return no('target-too-heavy', { grams: String(into / 1000) })
  const formOf = ({ ingredientId }: (typeof inputs)[number]) =>
    ingredientId === null ? 'liquid' : store.get(`ingredient:${ingredientId}`)?.form
  const isBrew = kind === 'immersion-brew' || kind === 'percolation-brew'
  if (isBrew && !inputs.some((input) => formOf(input) === 'grounds')) return no('no-grounds')
  if (kind === 'infusion' && !inputs.some(({ isStrainedOut }) => isStrainedOut)) return no('nothing-strained')
  const steps = sent.steps.flatMap(({ text, minutes }) => (text ? [{ text, ...(minutes ? { minutes } : {}) }] : []))
  return ok({
    inputs,
    formula: {
      targetMg: target,
      brixHundredths: orNull(sent.brix, 100),
      retentionMilli: isBrew || kind === 'infusion' ? orNull(sent.retention, 1000) : null,
      storageDeciC: orNull(sent.storage, 10),
      keepsHours: orNull(sent.keepsHours, 1),
      steps: steps.length > 0 ? JSON.stringify(steps) : null,
      note: sent.note ?? null,
    },
  })
}

interface Input {
  readonly id: string
  readonly ingredientId: string | null
  readonly preparationId: string | null
  readonly amountMg: number
  readonly typed: string
  readonly unit: string
  readonly microdensity: number | null
  readonly temperatureDeciC: number | null
  readonly isStrainedOut: boolean
}

type InputRefusal = 'part-gone' | DoseRefusal | AmountRefusal

function inputsOf(world: World, sent: FormulaSent, store: Store, kind: string): Result<readonly Input[], InputRefusal> {
  const inputs: Input[] = []
  for (const [place, line] of sent.inputs.entries()) {
    if (!line.part || !line.amount) continue
    const part = store.get(line.part)
    if (!part) return no('part-gone', { line: String(place) })
    const typed = line.density && { value: line.density.value, of: line.densityFor ?? '' }
    const dose = doseOf({ amount: line.amount.value, unit: line.unit }, line.part, part, typed ?? null)
    if (!dose.ok) return no(dose.reason, { line: String(place), name: part.name })
    const { grams, density } = dose.value
    const amountMg = milligramsOf(grams)
    if (!amountMg.ok) return no(amountMg.reason, { line: String(place) })
    const [, what = '', id = ''] = /^(ingredient|preparation):(.+)$/.exec(line.part) ?? []
    inputs.push({
      id: world.id(),
      ingredientId: what === 'ingredient' ? id : null,
      preparationId: what === 'preparation' ? id : null,
      amountMg: amountMg.value,
      typed: line.amount.typed,
      unit: line.unit,
      microdensity: orNull(density ?? undefined, 1_000_000),
      temperatureDeciC: orNull(line.temperature, 10),
      isStrainedOut: kind === 'infusion' && line.isStrainedOut === 'on',
    })
  }
  return ok(inputs)
}
