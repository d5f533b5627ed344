import { describe, expect, test } from 'vitest'
import { type Chance, dealCodes, dealJugLetters, dealSeatCodes, shuffleCups } from '@/lib/panel/code'
import { seededRandom } from '@/lib/stats/random'

/** Tests may repeat chance; the app may not. */
const chance = (seed: number): Chance => seededRandom(seed)

const firsts = (tray: readonly string[]) => new Set(tray.map((code) => code[0]))

describe('dealSeatCodes', () => {
  const trays = dealSeatCodes(60, 6, chance(1))

  test('gives every seat as many codes as cups, three digits each', () => {
    expect(trays.length).toBe(60)
    expect(trays.every((tray) => tray.length === 6)).toBe(true)
    expect(trays.flat().every((code) => /^[1-9]\d\d$/.test(code))).toBe(true)
  })

  test('no code comes twice in the panel, and first digits differ on each tray', () => {
    expect(new Set(trays.flat()).size).toBe(360)
    expect(trays.every((tray) => firsts(tray).size === 6)).toBe(true)
  })

  test('codes already on servings are left out', () => {
    const more = dealSeatCodes(60, 6, chance(1), new Set(trays.flat()))
    expect(new Set([...trays.flat(), ...more.flat()]).size).toBe(720)
  })

  test('when all codes are used, each comes a second time, never twice on one tray', () => {
    const many = dealSeatCodes(200, 7, chance(2))
    expect(many.every((tray) => new Set(tray).size === 7)).toBe(true)
    const often = new Map<string, number>()
    for (const code of many.flat()) often.set(code, (often.get(code) ?? 0) + 1)
    expect(new Set(often.values())).toEqual(new Set([1, 2]))
    expect(often.size).toBe(885)
  })

  test('codes taken twice before are not dealt before those taken once', () => {
    const all = dealCodes(885, chance(3))
    const next = dealCodes(5, chance(4), [...all, ...all.slice(0, 880)])
    expect(next.toSorted()).toEqual(all.slice(880).toSorted())
  })

  test('on a tray of more than nine, first digits repeat and codes do not', () => {
    const [tray = []] = dealSeatCodes(1, 12, chance(5))
    expect(new Set(tray).size).toBe(12)
    expect(firsts(tray).size).toBe(9)
  })

  test('every place on the tray sees every first digit about equally often', () => {
    const counts = Array<number>(9).fill(0)
    for (let seed = 0; seed < 900; seed += 1) {
      const digit = Number(dealSeatCodes(1, 4, chance(seed))[0]?.[2]?.[0])
      counts[digit - 1] = (counts[digit - 1] ?? 0) + 1
    }
    const chiSquared = counts.reduce((sum, count) => sum + (count - 100) ** 2 / 100, 0)
    expect(chiSquared).toBeLessThan(26.124) // upper 0.001 point, 8 df, NIST/SEMATECH e-Handbook 1.3.6.7.4
  })

  test.each([
    [-1, 3],
    [2.5, 3],
    [1, -1],
    [1, 886],
    [1, NaN],
  ])('%d seats of %d cups are refused', (seats, cups) => {
    expect(() => dealSeatCodes(seats, cups, chance(1))).toThrow(RangeError)
  })
})

describe('dealCodes', () => {
  test('never deals a number of one digit or one that is loaded (common practice, no source)', () => {
    const all = dealCodes(885, chance(6))
    expect(new Set(all).size).toBe(885)
    for (const loaded of ['111', '666', '999', '123', '911', '100']) expect(all).not.toContain(loaded)
  })
})

describe('dealJugLetters', () => {
  test('letters differ and are easily told apart', () => {
    for (let cups = 0; cups <= 16; cups += 1) {
      const letters = dealJugLetters(cups, chance(cups))
      expect(new Set(letters).size).toBe(cups)
      expect(letters.join('')).not.toMatch(/[IOQ]/)
      if (cups <= 9) expect(letters.join('')).not.toMatch(/[ABCDEGPVZ]/)
    }
  })

  test('the first jug gets every clear letter about equally often', () => {
    const counts = new Map<string, number>()
    for (let seed = 0; seed < 900; seed += 1) {
      const letter = dealJugLetters(3, chance(seed))[0] ?? ''
      counts.set(letter, (counts.get(letter) ?? 0) + 1)
    }
    expect(counts.size).toBe(9)
    const chiSquared = [...counts.values()].reduce((sum, count) => sum + (count - 100) ** 2 / 100, 0)
    expect(chiSquared).toBeLessThan(26.124) // as above
  })

  test('seventeen jugs are refused', () => {
    expect(() => dealJugLetters(17, chance(1))).toThrow('0 to 16 jugs, got 17')
  })
})

test('shuffleCups leaves the list as it is and loses nothing', () => {
  const cups = Object.freeze(['a', 'b', 'c', 'd', 'e'])
  expect(shuffleCups(cups, chance(8)).toSorted()).toEqual(cups)
  const firstsSeen = new Set(Array.from({ length: 60 }, (_, seed) => shuffleCups(cups, chance(seed))[0]))
  expect(firstsSeen.size).toBe(5)
})
