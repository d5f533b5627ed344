import { expect, test } from 'vitest'
import { panelCautions } from '@/lib/tasks/panel-cautions'
import type { PanelIngredient } from '@/lib/db/panel-ingredients'

const ingredient = (more: Partial<PanelIngredient> = {}): PanelIngredient => ({
  id: 'i',
  name: 'An ingredient',
  kind: 'other',
  isMilkOrPlantDrink: false,
  labelReadAt: new Date(0),
  caffeineHighMg100g: null,
  sugarsMg: null,
  allergens: [],
  ...more,
})
const says = (...states: string[]) =>
  panelCautions(
    states.map((state) => ingredient({ allergens: [{ allergen: 'milk', state }] })),
    'eu',
  )

test('of several marks on one allergen the gravest is told', () => {
  expect(says('may-contain', 'contains', 'not-stated').contains).toEqual(['Milk'])
  expect(says('not-stated', 'may-contain').mayContain).toEqual(['Milk'])
  expect(says('not-stated').notStated).toEqual(['Milk'])
})

test('a mark nobody knows counts as not stated, never as free from', () => {
  expect(says('probably-fine').notStated).toEqual(['Milk'])
})

test('labels that nobody has read, and a panel without ingredients, leave the whole list not stated', () => {
  expect(panelCautions([ingredient({ labelReadAt: null })], 'us').notStated).toHaveLength(9)
  expect(panelCautions([], 'us').notStated).toHaveLength(9)
})

test('labels that were read and name nothing leave nothing to tell', () => {
  const { contains, mayContain, notStated } = panelCautions([ingredient()], 'eu')
  expect([contains, mayContain, notStated]).toEqual([[], [], []])
})

test('coffee whose caffeine nobody knows is cautioned; only a stated zero is not', () => {
  expect(panelCautions([ingredient({ kind: 'coffee' })], 'eu').caffeine).toBe(true)
  expect(panelCautions([ingredient({ kind: 'coffee', caffeineHighMg100g: 0 })], 'eu').caffeine).toBe(false)
  expect(panelCautions([ingredient({ caffeineHighMg100g: 12 })], 'eu').caffeine).toBe(true)
})

test('milk, plant drink and sugar are cautioned as well', () => {
  expect(panelCautions([ingredient({ kind: 'milk' })], 'eu').milk).toBe(true)
  expect(panelCautions([ingredient({ isMilkOrPlantDrink: true })], 'eu').milk).toBe(true)
  expect(panelCautions([ingredient({ kind: 'sweetener' })], 'eu').sugar).toBe(true)
  expect(panelCautions([ingredient({ kind: 'sweetener', sugarsMg: 0 })], 'eu').sugar).toBe(false)
})

test('the café’s own list decides which allergens are named; an unknown list is our fault', () => {
  const sesame = [ingredient({ allergens: [{ allergen: 'sesame', state: 'contains' }] })]
  expect(panelCautions(sesame, 'ph').contains).toEqual([])
  expect(panelCautions(sesame, 'us').contains).toEqual(['Sesame'])
  expect(() => panelCautions([], 'moon')).toThrow(RangeError)
})
