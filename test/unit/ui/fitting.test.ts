import { expect, test } from 'vitest'
import { fitting } from '@/app/ui/fitting'

const names = ['Whole milk, 3.25 % fat', 'Oat drink, unsweetened', 'Crème fraîche', 'Evaporated milk, whole']
const found = (typed: string) =>
  fitting(
    names.map((words) => ({ words })),
    typed,
  ).map(({ words }) => words)

test('what is typed is found at the beginning of words, in any order, without accents or capitals', () => {
  expect(found('')).toEqual(names)
  expect(found('MILK')).toEqual(['Whole milk, 3.25 % fat', 'Evaporated milk, whole'])
  expect(found('milk eva')).toEqual(['Evaporated milk, whole'])
  expect(found('creme')).toEqual(['Crème fraîche'])
  expect(found('at')).toEqual([])
})

test('what begins with it stands first', () => {
  expect(found('whole')).toEqual(['Whole milk, 3.25 % fat', 'Evaporated milk, whole'])
  expect(found('e')).toEqual(['Evaporated milk, whole'])
})
