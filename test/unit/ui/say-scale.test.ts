import { expect, test } from 'vitest'
import { sayKept, sayOff } from '@/app/(house)/trials/[trialId]/scale/say-scale'

test.each([
  ['20', null],
  ['20,4', null],
  ['24', '4.0 g too much, beyond ± 0.4 g. Begin this step again, or note what it became.'],
  ['2', '18.0 g short, beyond ± 0.4 g. Add the rest before you go on.'],
  ['', null],
  ['some', null],
])('%s of 20 g', (typed, said) => {
  expect(sayOff(20, 0.4, typed)).toBe(said)
})

test('of a step nobody can work out nothing is said', () => {
  expect(sayOff(null, 2, '5')).toBeNull()
})

test('what became of a weighing is said, the gravest of several first', () => {
  expect(sayKept(null)).toBeNull()
  expect(sayKept({ count: 1, outcome: 'within' })).toContain('kept in the house, every weight within')
  expect(sayKept({ count: 2, outcome: 'outside' })).toMatch(/^2 weighings are kept.*beyond its tolerance/)
  expect(sayKept({ count: 1, outcome: 'refused' })).toContain('could not be kept')
  expect(sayKept({ count: 0, outcome: 'nothing' })).toContain('nothing is kept')
})
