import { describe, expect, test } from 'vitest'
import { pairCounts, spread } from '@/lib/panel/balance'
import { balancedTrays } from '@/lib/panel/incomplete-block'

const sizes = Array.from({ length: 10 }, (_, at) => at + 3).flatMap((cups) =>
  Array.from({ length: cups - 2 }, (_, at) => [cups, at + 2] as const),
)

/** The smallest b for which r = bM/K and λ = r(M − 1)/(K − 1) are whole: the two counting conditions. */
function fewestTrays(cups: number, size: number): number {
  let b = 1
  while ((b * size) % cups !== 0 || (((b * size) / cups) * (size - 1)) % (cups - 1) !== 0) b += 1
  return b
}

describe.each(sizes)('of %i cups, trays of %i', (cups, size) => {
  const trays = balancedTrays(cups, size) ?? []

  test('are as few as the counting conditions allow', () => {
    expect(trays.length).toBe(fewestTrays(cups, size))
  })

  test('hold different cups, each cup and each pair equally often', () => {
    expect(trays.every((tray) => new Set(tray).size === size && Math.max(...tray) < cups)).toBe(true)
    const served = Array.from({ length: cups }, (_, cup) => trays.filter((tray) => tray.includes(cup)).length)
    expect(new Set(served).size).toBe(1)
    const pairs = pairCounts(
      trays.map((tray) => tray.map((cup) => cup + 1)),
      cups,
    )
    expect(spread(pairs, (row, column) => row === column)).toBe(0)
  })
})

test('beyond twelve cups some designs are known and the others are not made up', () => {
  expect(balancedTrays(13, 3)?.length).toBe(26)
  expect(balancedTrays(15, 8)?.length).toBe(15)
  expect(balancedTrays(15, 5)).toBeNull()
})

test.each([
  [2, 2],
  [17, 3],
  [6, 6],
  [6, 2.5],
])('%d cups with trays of %d are refused', (cups, size) => {
  expect(() => balancedTrays(cups, size)).toThrow(RangeError)
})
