import { readNumber } from '@/lib/base/typed-number'
import type { WarmthAsked } from '@/lib/drink/jug-warmth'
import { sayNumber, temperatureField } from './number-fields'

/** One temperature that a list asks for: what stands in its field, and why it was not taken. */
export interface WarmthField extends WarmthAsked {
  readonly field: string
  readonly typed: string
  readonly problem: string | undefined
}

/** Reads what a page was told behind its question mark: °C by name, and the fields as they stand. */
export function readWarmthForm(
  asked: readonly WarmthAsked[],
  query: Readonly<Record<string, string | undefined>>,
): { readonly fields: readonly WarmthField[]; readonly celsius: ReadonlyMap<string, number> } {
  const celsius = new Map<string, number>()
  const fields = asked.map((one, place) => {
    const field = `warm${place + 1}`
    const typed = query[field] ?? ''
    const holds = one.isIce ? temperatureField(-40, 0) : temperatureField(-5, 100)
    const read = readNumber(typed, holds)
    if (read.ok) celsius.set(one.name, read.value)
    const problem = read.ok || typed.trim() === '' ? undefined : sayNumber(read, typed, holds)
    return { ...one, field, typed, problem }
  })
  return { fields, celsius }
}
