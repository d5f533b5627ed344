import { expect, test } from 'vitest'
import { compareBooks } from '@/lib/commands/torture/compare-books'

const told = (value: number, revision = 1, attribute = 0) => ({ seat: 3, code: '417', attribute, value, revision })
const kept = (value: number, revision = 1, position = 0) => ({
  value,
  revision,
  serving: { code: '417', seat: { number: 3 } },
  attribute: { position },
})

test.each([
  ['as it was acknowledged', [told(7)], [kept(7)], {}],
  ['not there', [told(7)], [], { lost: 1 }],
  ['there with another value', [told(7)], [kept(6)], { lost: 1 }],
  ['there as it was before', [told(7, 2)], [kept(7, 1)], { lost: 1 }],
  ['there as nobody acknowledged it', [told(7, 1)], [kept(7, 2)], { lost: 1 }],
  ['there twice', [told(7)], [kept(7), kept(7)], { doubled: 1 }],
  ['there beside one that nobody acknowledged', [told(7)], [kept(7), kept(5, 1, 1)], { unasked: 1 }],
] as const)('an answer that is %s', (_, given, books, wrong) => {
  expect(compareBooks(given, books)).toEqual({ acknowledged: 1, lost: 0, doubled: 0, unasked: 0, ...wrong })
})
