import { expect, test } from 'vitest'
import { placeTellsCup } from '@/lib/panel/place-and-cup'

/** Trays as trials in the order of tasting. */
const tasted = (...trays: readonly string[]) =>
  Object.freeze(trays.flatMap((tray) => [...tray].map((trialId, at) => Object.freeze({ trialId, position: at + 1 }))))

test('two trials, one served twice and kept apart: the single one is second always, so place and cup are one', () => {
  expect(placeTellsCup(tasted('aba', 'aba', 'aba'))).toBe(true)
})

test('as soon as one tray has them in another order, the two can be told apart', () => {
  expect(placeTellsCup(tasted('aba', 'aba', 'baa'))).toBe(false)
  expect(placeTellsCup(tasted('ab', 'ba'))).toBe(false)
})

test('one tray alone, or none, confounds everything and is not spoken of', () => {
  expect(placeTellsCup(tasted('abc'))).toBe(false)
  expect(placeTellsCup([])).toBe(false)
})
