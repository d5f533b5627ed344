import { expect, test } from 'vitest'
import { findMethod, methods } from '@/lib/drink/method'

test('every method is found by its id, an unknown one is not', () => {
  for (const method of methods) expect(findMethod(method.id)).toBe(method)
  expect(findMethod('percolator')).toBeNull()
})

test('what steeps is immersion, what runs through is percolation, powder dissolves', () => {
  const brewing = (id: string) => findMethod(id)?.brewing
  expect([brewing('plunger-pot'), brewing('cold-steep')]).toEqual(['immersion', 'immersion'])
  expect([brewing('pour-over'), brewing('drip')]).toEqual(['percolation', 'percolation'])
  expect([brewing('espresso'), brewing('instant')]).toEqual(['espresso', 'dissolved'])
})
