import { expect, test } from 'vitest'
import {
  compositionProblems,
  densityProblems,
  doubtful,
  only,
  packProblems,
  wrong,
} from '@/lib/drink/ingredient-problem'
import { per100 } from '../../support/drink-lines'

test('a liquid outside 0.90 to 1.50 g/ml is refused', () => {
  expect(densityProblems('density', 'Oil', 0.89, null)).toMatchObject([{ field: 'density', doubt: false }])
  expect(densityProblems('density', 'Lead', 1.51, null)[0]?.message).toContain('between 0.9 and 1.5')
  expect(densityProblems('density', 'Milk', 1.03, null)).toEqual([])
  expect(densityProblems('density', 'Milk', null, null)).toEqual([])
})

test('agave syrup at the table’s 0.93 g/ml and 77 % sugars is doubted (USDA household weight, an impossible density)', () => {
  expect(densityProblems('density', 'Agave syrup', 0.93, 77)).toMatchObject([{ doubt: true }])
  expect(densityProblems('density', 'Agave syrup', 1.39, 77)).toEqual([])
})

test('a price needs a pack', () => {
  expect(packProblems(1.6, null, 'ml')).toMatchObject([
    { field: 'pack', message: expect.stringContaining('needs a pack') },
  ])
  expect(packProblems(1.6, 0, 'ml').length).toBe(1)
  expect(packProblems(1.6, 354, 'can').length).toBe(1)
  expect(packProblems(-1, 354, 'ml')).toMatchObject([{ field: 'price' }])
  expect(packProblems(null, null, null)).toEqual([])
  expect(packProblems(1.6, 354, 'ml')).toEqual([])
})

test('a composition cannot hold more than it weighs', () => {
  const fields = (over: Parameters<typeof per100>[0]) =>
    compositionProblems('c', 'X', per100({ energyKcal: null, ...over })).map(({ field }) => field)
  expect(fields({ sugars: 101 })).toContain('c.sugars')
  expect(fields({ water: 60, sugars: 60 })).toEqual(['c'])
  expect(fields({ sugars: 5, freeSugars: 6 })).toEqual(['c.freeSugars'])
  expect(fields({ caffeineLow: 2, caffeineHigh: 1 })).toEqual(['c.caffeineLow'])
  expect(fields({ energyKcal: -1 })).toEqual(['c'])
  expect(fields({ water: 88, sugars: 5, fat: 3.3 })).toEqual([])
})

test('a doubt is shown, only what cannot be is refused', () => {
  expect(only([wrong(true, 'a', 'x'), wrong(false, 'b', 'x'), doubtful(true, 'c', 'x')])).toEqual([
    { field: 'a', message: 'x', doubt: false },
    { field: 'c', message: 'x', doubt: true },
  ])
})
