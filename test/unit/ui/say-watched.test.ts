import { expect, test } from 'vitest'
import { sayWatched } from '@/app/ui/say-watched'
import type { SeatStanding } from '@/app/ui/seat-table'

const open = (...states: SeatStanding[]) => sayWatched({ stage: 'open', seats: states.map((state) => ({ state })) })

test('one seat is spoken of as one', () => {
  expect(open('free')).toBe('Nobody has taken a seat yet; 1 waits.')
  expect(open('finished')).toBe('1 of 1 seat has finished.')
  expect(open('tasting')).toBe('0 of 1 seat has finished, 1 is tasting.')
})

test('who left is named: the numbers of the sentence sum to the seats', () => {
  const states: SeatStanding[] = [
    'finished',
    'finished',
    'tasting',
    'left',
    'left',
    'barred',
    'set-aside',
    'free',
    'free',
  ]
  const sentence = open(...states)
  expect(sentence).toBe(
    '2 of 9 seats have finished, 1 is tasting, 2 left before the last cup, 1 takes no more scores, 1 is set aside, 2 are free.',
  )
  const numbers = sentence.match(/(?<!of )\b\d+/g) ?? []
  expect(numbers.reduce((sum, n) => sum + Number(n), 0)).toBe(states.length)
})

test('a panel whose only guest left has not “nobody”', () => {
  expect(open('left', 'free')).toBe('0 of 2 seats have finished, 1 left before the last cup, 1 is free.')
})

test('a panel that is not open says so', () => {
  expect(sayWatched({ stage: 'closed', seats: [] })).toBe('This panel is closed.')
})
