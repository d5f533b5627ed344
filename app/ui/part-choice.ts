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
}

export const partChoice = ({
  ref,
  name,
  kind,
  form,
  density,
  densityIsAssumed = false,
  pumpMl = null,
}: Part): PartChoice => ({
  value: ref,
  words: name,
  kind,
  form,
  density,
  densityIsAssumed,
  pumpMl,
})

export const isBatch = (ref: string) => ref.startsWith('batch:')
