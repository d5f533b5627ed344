import { expect, test } from 'vitest'
import { sayKept, sayOff, sayTooCoarse } from '@/app/(house)/trials/[trialId]/scale/say-scale'

test.each([
  ['20', null],
  ['20,4', null],
  ['24', '4.0 g too much, beyond ± 0.4 g. Begin this step again, or note what it became.'],
  ['2', '18.0 g short, beyond ± 0.4 g. Add the rest before you go on.'],
  ['', null],
  ['some', null],
])('%s of 20 g', (typed, said) => {
  expect(sayOff(20, { tolerance: 0.4, decimals: 1 }, typed)).toBe(said)
})

test('of a step nobody can work out nothing is said', () => {
  expect(sayOff(null, { tolerance: 2, decimals: 1 }, '5')).toBeNull()
})

test('what became of a weighing is said, the gravest of several first', () => {
  expect(sayKept(null)).toBeNull()
  expect(sayKept({ count: 1, outcome: 'within' })).toContain('kept in the house, every weight within')
  expect(sayKept({ count: 2, outcome: 'outside' })).toMatch(/^2 weighings are kept.*beyond its tolerance/)
  expect(sayKept({ count: 1, outcome: 'refused' })).toContain('could not be kept')
  expect(sayKept({ count: 0, outcome: 'nothing' })).toContain('nothing is kept')
})

test('on a scale that shows hundredths, hundredths are said', () => {
  expect(sayOff(1, { tolerance: 0.02, decimals: 2 }, '1.05')).toMatch(/^0\.05 g too much, beyond ± 0\.02 g/)
})

test('a scale too coarse is named where the house named it', () => {
  const scale = { name: null, division: 0.1 }
  const advice = 'cannot weigh this: take a finer one, or pre-mix it for 5 glasses.'
  expect(sayTooCoarse({ scale, glasses: 5 })).toBe(`A scale that shows 0.1 g ${advice}`)
  const named = { ...scale, name: 'The one by the grinder' }
  expect(sayTooCoarse({ scale: named, glasses: 5 })).toBe(`The one by the grinder, which shows 0.1 g, ${advice}`)
})
