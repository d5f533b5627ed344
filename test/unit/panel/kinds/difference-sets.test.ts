import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { ARRANGEMENTS, dealSets, protocols, setSize, type Protocol } from '@/lib/panel/kinds/difference-sets'
import { PROTOCOLS } from '@/lib/stats/difference/protocol'

const words = (sets: readonly (readonly number[])[]) => sets.map((set) => set.join('')).toSorted()

/** How often each arrangement was served. */
function counts(protocol: Protocol, sets: readonly (readonly number[])[]): number[] {
  return ARRANGEMENTS[protocol].map((one) => sets.filter((set) => String(set) === String(one)).length)
}

const poured = (sets: readonly (readonly number[])[], cup: number) => sets.flat().filter((one) => one === cup).length

describe('the orders', () => {
  // ISO 4120: AAB ABA BAA ABB BAB BBA; ISO 10399: the reference is either, then both orders; ISO 5495: both orders
  test('are those of the standards', () => {
    expect(words(ARRANGEMENTS.triangle)).toEqual(['112', '121', '122', '211', '212', '221'])
    expect(words(ARRANGEMENTS['duo-trio'])).toEqual(['112', '121', '212', '221'])
    expect(words(ARRANGEMENTS['two-afc'])).toEqual(['12', '21'])
    expect(words(ARRANGEMENTS['three-afc'])).toEqual(['122', '212', '221'])
    expect(words(ARRANGEMENTS.tetrad)).toEqual(['1122', '1212', '1221', '2112', '2121', '2211'])
  })
  test('are of the methods that the statistics know', () => expect(protocols).toEqual(PROTOCOLS))
  test('have as many servings as the method', () => {
    expect(PROTOCOLS.map(setSize)).toEqual([3, 3, 2, 3, 4])
  })
})

describe('dealing', () => {
  test.each(PROTOCOLS)('%s: every order within one, also with sets added later, and both cups as often', (protocol) => {
    fc.assert(
      fc.property(fc.nat(70), fc.nat(40), fc.integer(), (first, more, seed) => {
        const dealt = dealSets(protocol, [], first, seed)
        const added = dealSets(protocol, dealt, more, seed)
        expect([dealt.length, added.length]).toEqual([first, more])
        for (const sets of [dealt, [...dealt, ...added]]) {
          const found = counts(protocol, sets)
          expect(found.reduce((sum, one) => sum + one, 0)).toBe(sets.length)
          expect(Math.max(...found) - Math.min(...found)).toBeLessThanOrEqual(1)
          if (protocol !== 'three-afc') expect(Math.abs(poured(sets, 1) - poured(sets, 2))).toBeLessThanOrEqual(1)
        }
      }),
    )
  })

  test('is another with another seed, and the same with the same', () => {
    const [one, other] = [dealSets('triangle', [], 24, 1), dealSets('triangle', [], 24, 2)]
    expect(dealSets('triangle', [], 24, 1)).toEqual(one)
    expect(other).not.toEqual(one)
  })

  test('is no pattern: a seat’s place says nothing of its set', () => {
    const first = Array.from({ length: 600 }, (_, seed) => dealSets('triangle', [], 6, seed)[0]?.join('') ?? '')
    for (const set of words(ARRANGEMENTS.triangle)) {
      // 600 draws of one in six: 100, and 4 standard deviations of √(600·5/36) are 36.5
      expect(Math.abs(first.filter((one) => one === set).length - 100)).toBeLessThan(37)
    }
  })
})
