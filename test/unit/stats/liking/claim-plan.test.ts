import { expect, test } from 'vitest'
import { claimPlan } from '@/lib/stats/liking/claim-plan'

const cups = ['cup 10', 'cup 2', 'cup 1']

test('all pairs, in label order', () => {
  expect(claimPlan(cups, {})).toEqual({
    plan: 'all',
    pairs: [
      ['cup 1', 'cup 2'],
      ['cup 1', 'cup 10'],
      ['cup 2', 'cup 10'],
    ],
  })
})

test('a control makes it a plan against one cup, the control always second', () => {
  expect(claimPlan(cups, { control: 'cup 2' })).toEqual({
    plan: 'against',
    pairs: [
      ['cup 1', 'cup 2'],
      ['cup 10', 'cup 2'],
    ],
  })
  expect(claimPlan(cups, { control: 'cup 2', plan: 'all' }).pairs.length).toBe(3)
})

test('one pair stands in label order, whichever cup is named first', () => {
  expect(claimPlan(cups, { pair: ['cup 10', 'cup 2'] })).toEqual({ plan: 'pair', pairs: [['cup 2', 'cup 10']] })
})

test('what the plan lacks, or names without there being such a cup, is refused', () => {
  expect(() => claimPlan(cups, { plan: 'against' })).toThrow(/which/)
  expect(() => claimPlan(cups, { plan: 'pair' })).toThrow(/which/)
  expect(() => claimPlan(cups, { control: 'cup 3' })).toThrow(/cup 3/)
  expect(() => claimPlan(cups, { pair: ['cup 1', 'x'] })).toThrow(/called x/)
  expect(() => claimPlan(cups, { pair: ['cup 1', 'cup 1'] })).toThrow(/twice/)
})
