import { expect, test } from 'vitest'
import { cupLetters } from '@/lib/stats/liking/cup-letters'

const apart =
  (...pairs: readonly (readonly [number, number])[]) =>
  (i: number, j: number) =>
    pairs.some(([a, b]) => (a === i && b === j) || (a === j && b === i))

test('cups that nothing separates share one letter', () => {
  expect(cupLetters([5, 6, 4], apart())).toEqual(['a', 'a', 'a'])
})

test('the middle of three with separated ends stands in both groups, a with the highest', () => {
  expect(cupLetters([4, 7, 6], apart([0, 1]))).toEqual(['b', 'a', 'ab'])
})

test('separations that do not follow the means still give every unseparated pair a common letter', () => {
  const separated = apart([0, 1], [1, 2], [2, 3])
  const letters = cupLetters([8, 7, 6, 5], separated)
  for (let i = 0; i < 4; i++) {
    for (let j = 0; j < i; j++) {
      const shared = [...(letters[i] ?? '')].some((letter) => letters[j]?.includes(letter))
      expect(shared).toBe(!separated(i, j))
    }
  }
  expect(letters[0]).toContain('a')
})

test('one cup is a group of its own', () => {
  expect(cupLetters([5], apart())).toEqual(['a'])
})
