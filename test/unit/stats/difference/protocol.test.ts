import { expect, test } from 'vitest'
import { guessingShare, hasDirection, PROTOCOLS } from '@/lib/stats/difference/protocol'

// Guessing shares: ISO 4120 (triangle 1/3), ISO 10399 (duo-trio 1/2), ISO 5495 (paired 1/2); tetrad and 3-AFC 1/3.
test('one pair in two, one cup in three', () => {
  expect(PROTOCOLS.map((protocol) => [protocol, guessingShare(protocol)])).toEqual(
    expect.arrayContaining([
      ['triangle', 1 / 3],
      ['duo-trio', 1 / 2],
      ['two-afc', 1 / 2],
      ['three-afc', 1 / 3],
      ['tetrad', 1 / 3],
    ]),
  )
  expect(PROTOCOLS).toHaveLength(5)
})

test('only the forced choices ask in a direction', () => {
  expect(PROTOCOLS.filter((protocol) => hasDirection(protocol)).toSorted()).toEqual(['three-afc', 'two-afc'])
})
