import { expect, test } from 'vitest'
import { isSettled, outcomeOf } from '@/app/(house)/trials/[trialId]/scale/kept-weights'

test('a weighing is let go when the house has it, or never takes it', () => {
  expect(isSettled(200, { key: 'k' }, 'k')).toBe(true)
  expect(isSettled(422, null, 'k')).toBe(true)
  expect(isSettled(404, null, 'k')).toBe(true)
})

test('signed out, turned away at the door, or answered by another network or a machine in trouble, it stays', () => {
  expect(isSettled(200, null, 'k')).toBe(false) // the page of a guest network
  expect(isSettled(200, { key: 'another' }, 'k')).toBe(false)
  for (const status of [400, 401, 403, 405, 413, 500, 503])
    expect(isSettled(status, { door: 'x' }, 'k'), `${status}`).toBe(false)
})

test('what the house made of it is told apart: kept, within or beyond tolerance, refused', () => {
  expect(outcomeOf(200, { key: 'k', within: true })).toBe('within')
  expect(outcomeOf(200, { key: 'k', within: false })).toBe('outside')
  expect(outcomeOf(200, { key: 'k', within: null })).toBe('kept')
  expect([404, 422].map((status) => outcomeOf(status, null))).toEqual(['refused', 'refused'])
})
