import { expect, test } from 'vitest'
import { countedTasters, isRight } from '@/lib/tasks/result/difference-answer'
import { ARRANGEMENTS, protocols, type Protocol } from '@/lib/panel/kinds/difference-sets'

/** Every answer one may give to a set, as places in it. */
function answersTo(protocol: Protocol, size: number): number[][] {
  const places = Array.from({ length: size }, (_, at) => at)
  if (protocol !== 'tetrad') return places.slice(protocol === 'duo-trio' ? 1 : 0).map((at) => [at])
  return places.flatMap((one) => places.filter((other) => other > one).map((other) => [one, other]))
}

// guessing right one time in three or two, as ISO 4120, ISO 10399, ISO 5495 and ASTM E3009 have it
const guessing = { triangle: 1 / 3, 'duo-trio': 1 / 2, 'two-afc': 1 / 2, 'three-afc': 1 / 3, tetrad: 1 / 3 } as const

test.each(protocols)('%s: of all answers to each order luck is right as often as the method says', (protocol) => {
  for (const set of ARRANGEMENTS[protocol]) {
    const served = set.map((cup) => (cup === 1 ? 'A' : 'B'))
    const answers = answersTo(protocol, served.length)
    const right = answers.filter((places) =>
      isRight(
        protocol,
        served,
        places.map((at) => served[at] ?? ''),
        'A',
      ),
    )
    expect(right.length / answers.length, served.join('')).toBeCloseTo(guessing[protocol], 12)
  }
})

test('the odd one, the one like the reference, the one with more of it, and a pair are right', () => {
  expect(isRight('triangle', ['A', 'B', 'B'], ['A'], 'A')).toBe(true)
  expect(isRight('triangle', ['A', 'A', 'B'], ['A'], 'A')).toBe(false)
  expect(isRight('duo-trio', ['B', 'A', 'B'], ['B'], 'A')).toBe(true)
  expect(isRight('two-afc', ['A', 'B'], ['B'], 'B')).toBe(true)
  expect(isRight('tetrad', ['A', 'B', 'A', 'B'], ['B', 'B'], 'A')).toBe(true)
  expect(isRight('tetrad', ['A', 'B', 'A', 'B'], ['A', 'B'], 'A')).toBe(false)
})

test('who answered as often as planned counts, once and by their first answers', () => {
  const set = (seat: number, number: number, letters: readonly string[] | null) => ({
    ...{ seat, number, served: ['A', 'B', 'B'], letters, source: 'phone', at: null, skipReason: null },
  })
  const sets = [
    set(1, 1, ['A']),
    set(1, 2, ['B']),
    set(2, 1, ['A']),
    set(2, 2, null),
    set(3, 1, ['A']),
    set(3, 2, ['A']),
  ]
  const { right, incomplete } = countedTasters({ protocol: 'triangle', each: 2 }, sets, [3], 'A')
  expect([...right]).toEqual([[1, 1]])
  expect(incomplete).toEqual([2])
})
