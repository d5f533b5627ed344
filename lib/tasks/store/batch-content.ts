import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { doseOf, type DoseRefusal } from '@/lib/drink/dose'
import type { BatchSent } from '@/lib/forms/preparation-form'
import { MOST_KEPT } from '@/lib/forms/number-fields'
import { milligramsOf, type AmountRefusal } from '../milligrams'
import type { Store } from './store-part'
import type { World } from '../world'

export type BatchRefusal =
  | 'part-gone'
  | DoseRefusal
  | 'output-too-heavy'
  | 'no-grounds'
  | 'nothing-strained'
  | 'all-strained'
  | 'too-few-grounds'
  | AmountRefusal

const orNull = (value: number | undefined, times: number) => (value === undefined ? null : Math.round(value * times))

/** Turns a sent batch into rows; detail.line says which input a refusal is about. */
export function batchContent(world: World, sent: BatchSent, store: Store, kind: string) {
  const read = inputsOf(world, sent, store, kind)
  if (!read.ok) return read
  const inputs = read.value
  const into = inputs.reduce((sum, input) => sum + input.amountMg, 0)
  const output = orNull(sent.output?.value, 1000)
  if (output !== null && output > into) return no('output-too-heavy', { grams: String(into / 1000) })
  const partOf = (input: (typeof inputs)[number]) =>
    store.get(input.ingredientId ? `ingredient:${input.ingredientId}` : `batch:${input.inputBatchId}`)
  const sumOf = (form: 'grounds' | 'wet') =>
    inputs
      .filter((input) => (partOf(input)?.form === 'grounds') === (form === 'grounds'))
      .reduce((sum, input) => sum + input.amountMg, 0)
  const infused = kind === 'infusion'
  const strained = inputs.filter((input) => input.isStrainedOut).reduce((sum, input) => sum + input.amountMg, 0)
  if (infused && strained === 0) return no('nothing-strained')
  if (infused && strained === into) return no('all-strained')
  const brewed = kind === 'immersion-brew' || kind === 'percolation-brew'
  const dose = sumOf('grounds')
  if (brewed && dose === 0) return no('no-grounds')
  // What the grounds kept is what went in and did not come out.
  const [wet, dry] = infused ? [into - strained, strained] : [sumOf('wet'), dose]
  const kept = (out: number) => Math.max(0, Math.round(((wet - out) / dry) * 1000))
  const retention = (brewed || infused) && output !== null ? kept(output) : null
  if (retention !== null && retention > MOST_KEPT) return no('too-few-grounds')
  const steps = sent.steps.flatMap(({ text, minutes }) => (text ? [{ text, ...(minutes ? { minutes } : {}) }] : []))
  return ok({
    inputs,
    batch: {
      outputMg: output,
      brixHundredths: orNull(sent.brix, 100),
      solidsHundredths: orNull(sent.solids, 100),
      retentionMilli: retention,
      microdensity: orNull(sent.density?.value, 1_000_000),
      steps: steps.length > 0 ? JSON.stringify(steps) : null,
      note: sent.note ?? null,
    },
  })
}

type InputRefusal = 'part-gone' | DoseRefusal | AmountRefusal

function inputsOf(world: World, sent: BatchSent, store: Store, kind: string) {
  const inputs: {
    id: string
    ingredientId: string | null
    inputBatchId: string | null
    amountMg: number
    typed: string
    unit: string
    microdensity: number | null
    temperatureDeciC: number | null
    isStrainedOut: boolean
  }[] = []
  for (const [place, line] of sent.inputs.entries()) {
    if (!line.part || !line.amount) continue
    const part = store.get(line.part)
    if (!part) return no<InputRefusal>('part-gone', { line: String(place) })
    const typed = line.density && { value: line.density.value, of: line.densityFor ?? '' }
    const dose = doseOf({ amount: line.amount.value, unit: line.unit }, line.part, part, typed ?? null)
    if (!dose.ok) return no(dose.reason, { line: String(place), name: part.name })
    const { grams, density } = dose.value
    const amountMg = milligramsOf(grams)
    if (!amountMg.ok) return no(amountMg.reason, { line: String(place) })
    const [, id = ''] = /^(?:ingredient|batch):(.+)$/.exec(line.part) ?? []
    inputs.push({
      id: world.id(),
      ingredientId: line.part.startsWith('ingredient:') ? id : null,
      inputBatchId: line.part.startsWith('batch:') ? id : null,
      amountMg: amountMg.value,
      typed: line.amount.typed,
      unit: line.unit,
      microdensity: orNull(density ?? undefined, 1_000_000),
      temperatureDeciC: orNull(line.temperature, 10),
      isStrainedOut: kind === 'infusion' && line.isStrainedOut === 'on',
    })
  }
  return ok(inputs) as Result<typeof inputs, InputRefusal>
}
