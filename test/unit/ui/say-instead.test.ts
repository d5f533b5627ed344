import { expect, test } from 'vitest'
import {
  sayCostDifference,
  sayDifference,
  sayGraver,
  sayInstead,
  sayNotCompared,
} from '@/app/(house)/trials/[trialId]/instead/[lineKey]/say-instead'
import { aLine } from '../../support/drink-lines'

test.each([
  [1.24, '1.2 g more'],
  [-0.06, '0.1 g less'],
  [-1.02, '1.0 g less'],
  [0.04, 'under 0.05 g apart'],
  [0, 'under 0.05 g apart'],
  [null, 'not compared'],
])('a difference of %s g: %s; nothing is called the same', (grams, words) => {
  expect(sayDifference(grams)).toBe(words)
})

test.each([
  [0.06, 'EUR', '0.06\u00a0EUR more'],
  [-0.065, 'EUR', '0.07\u00a0EUR less'],
  [0.004, 'EUR', 'under 0.01\u00a0EUR apart'],
  [0.4, 'JPY', 'under 1\u00a0JPY apart'],
  [null, 'EUR', 'not known'],
])('a cost of %s %s more: %s', (amount, currency, words) => {
  expect(sayCostDifference(amount, currency)).toBe(words)
})

const row = (name: string, state: 'contains' | 'may-contain' | 'not-stated') => ({
  id: name,
  name,
  state,
  from: ['Oat drink'],
  freeFromAllowed: false,
})

test('what it brings is said gravest first, and an unread label by its name alone', () => {
  const graver = [row('Eggs', 'not-stated'), row('Milk', 'may-contain'), row('Soybeans', 'contains')]
  expect(sayGraver({ graver, unread: [] })).toEqual([
    'contains Soybeans (Oat drink)',
    'may contain Milk (Oat drink)',
    'does not state Eggs',
  ])
  expect(sayGraver({ graver, unread: ['Oat drink'] })).toHaveLength(2)
})

test('what is not compared names who does not know it', () => {
  expect(sayNotCompared({ notCompared: [{ figure: 'protein', of: ['Whole milk', 'Oat drink'] }] })).toEqual([
    'protein (not known of Whole milk, Oat drink)',
  ])
})

test('the page says why it proposes nothing, and never that anything is equal', () => {
  const line = aLine({ name: 'Whole milk', kind: 'milk' })
  for (const compared of ['yes', 'not-this-kind', 'nothing-known'] as const)
    expect(sayInstead({ line, compared, proposals: [] })).toContain('Whole milk')
})
