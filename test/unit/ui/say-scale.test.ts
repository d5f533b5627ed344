import { expect, test } from 'vitest'
import { sayOff } from '@/app/(house)/trials/[trialId]/scale/say-scale'

const step = { add: 20, tolerance: 0.4 }

test.each([
  ['20', null],
  ['20,4', null],
  ['24', '4.0 g too much, beyond ± 0.4 g. Begin this step again, or note what it became.'],
  ['2', '18.0 g short, beyond ± 0.4 g. Add the rest before you go on.'],
  ['', null],
  ['some', null],
])('%s of 20 g', (typed, said) => {
  expect(sayOff(step, typed)).toBe(said)
})

test('of a step nobody can work out nothing is said', () => {
  expect(sayOff({ add: null, tolerance: 2 }, '5')).toBeNull()
})
