import { expect, test } from 'vitest'
import { IngredientForm } from '@/lib/forms/ingredient-form'

const typed = (more: object) => ({ name: 'Oat drink', kind: 'milk', form: 'liquid', ...more })
const refused = (more: object) => {
  const read = IngredientForm.safeParse(typed(more))
  return read.success ? [] : read.error.issues.map(({ path }) => path.join('.'))
}

test('kilojoules typed as kilocalories are refused beside the energy', () => {
  expect(refused({ energy: '1900' })).toEqual(['energy'])
  expect(refused({ energy: '46' })).toEqual([])
})

test('what is only doubtful is taken as the label says it', () => {
  // a sugar that brings hardly any energy is on sale under this name of sugars
  expect(refused({ sugars: '90', energy: '36' })).toEqual([])
})

test('what cannot be is refused beside its own field', () => {
  expect(refused({ sugars: '60', fat: '60' })).toEqual(['sugars'])
  expect(refused({ solids: '101' })).toEqual(['solids'])
})
