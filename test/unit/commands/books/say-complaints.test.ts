import { expect, test } from 'vitest'
import { sayComplaints } from '@/lib/commands/books/say-complaints'

test('each thing is said once, with how often and where first', () => {
  expect(sayComplaints([])).toEqual([])
  expect(
    sayComplaints([
      { code: 'taster-on-free-seat', values: { id: 't1', seat: 's1' } },
      { code: 'trial-numbers', values: { id: 'r1' } },
      { code: 'taster-on-free-seat', values: { id: 't2', seat: 's2' } },
    ]),
  ).toEqual([
    'a free seat has a taster (2 times, first id t1, seat s1)',
    'the trials of a recipe are not numbered 1, 2, 3 … (id r1)',
  ])
})
