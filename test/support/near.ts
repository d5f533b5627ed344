import { expect } from 'vitest'

/** Holds a number to a reference: within `tolerance` of it, as a share where the reference is larger than 1. */
export function expectNear(
  value: number | null | undefined,
  reference: number | null | undefined,
  tolerance: number,
): void {
  if (reference === null || reference === undefined) {
    expect(value ?? null).toBeNull()
    return
  }
  expect(value, `expected ${reference}`).toBeTypeOf('number')
  expect(
    Math.abs((value ?? NaN) - reference) / Math.max(1, Math.abs(reference)),
    `${value} against ${reference}`,
  ).toBeLessThan(tolerance)
}

/** The same for lists of one length. */
export function expectAllNear(
  values: readonly (number | null)[] | null | undefined,
  references: readonly (number | null)[] | null | undefined,
  tolerance: number,
): void {
  if (!references) {
    expect(values ?? null).toBeNull()
    return
  }
  expect(values).toHaveLength(references.length)
  references.forEach((reference, i) => expectNear(values?.[i], reference, tolerance))
}
