import type { Part } from '@/lib/drink/part'
import type { Choice } from './field'

/** Something a line may be made of, as a form offers it. */
export interface PartChoice extends Choice {
  readonly kind: Part['kind']
  readonly form: Part['form']
  /** g/ml as entered or measured; a batch may know its own all the same */
  readonly density: number | null
  readonly densityIsAssumed: boolean
  /** ml of one press, as the house measured it */
  readonly pumpMl: number | null
  /** of an ingredient: has anybody read its label? Null of a batch, whose inputs have labels. */
  readonly labelRead: boolean | null
  /** ids of what its label names, or may contain */
  readonly names: readonly string[]
  readonly hasPrice: boolean
}

export const partChoice = (part: Part): PartChoice => ({
  value: part.ref,
  words: part.offeredAs ?? part.name,
  kind: part.kind,
  form: part.form,
  density: part.density,
  densityIsAssumed: part.densityIsAssumed ?? false,
  labelRead: part.ref.startsWith('ingredient:') ? part.labelRead : null,
  names: Object.entries(part.allergens).flatMap(([id, mark]) =>
    mark === 'contains' || mark === 'may-contain' ? [id] : [],
  ),
  hasPrice: part.costPerGram !== null,
  pumpMl: part.pumpMl ?? null,
})

export const isBatch = (ref: string) => ref.startsWith('batch:')
