import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  answerOfTicks,
  columnsOf,
  intensityEnds,
  isAnswer,
  justRightSteps,
  likingQuestion,
  questionKinds,
  questionOf,
  questionProblem,
  sayAnswer,
  secondsPerCup,
  tickedWords,
  type Question,
} from '@/lib/panel/question'

const words: Question = { name: 'Taste', kind: 'words', low: null, high: null, words: ['nutty', 'floral', 'flat'] }
const sweet: Question = {
  name: 'Sweetness',
  kind: 'just-right-5',
  low: 'not sweet enough',
  high: 'too sweet',
  words: [],
}

test('each kind takes the numbers of its scale and no other', () => {
  const taken = (kind: Question['kind'], some: readonly string[] = []) =>
    [-1, 0, 0.5, 1, 5, 6, 7, 8, 9, 10, 100, 101].filter((value) => isAnswer({ kind, words: some }, value))
  expect(taken('liking-9')).toEqual([1, 5, 6, 7, 8, 9])
  expect(taken('just-right-5')).toEqual([1, 5])
  expect(taken('intensity-100')).toEqual([0, 1, 5, 6, 7, 8, 9, 10, 100])
  expect(taken('words', words.words)).toEqual([0, 1, 5, 6, 7])
})

test('the steps are worded by the owner, “just right” in the middle', () => {
  expect(justRightSteps(sweet)).toEqual([
    'not sweet enough, by far',
    'not sweet enough',
    'just right',
    'too sweet',
    'too sweet, by far',
  ])
  expect(justRightSteps({ low: null, high: null })[3]).toBe('too much')
  expect(intensityEnds({ low: null, high: 'as strong as can be' })).toEqual(['none at all', 'as strong as can be'])
})

test('ticks there and back', () => {
  fc.assert(
    fc.property(fc.uniqueArray(fc.integer({ min: 0, max: 13 })), (places) => {
      const offered = Array.from({ length: 14 }, (_, place) => `word ${place}`)
      const read = tickedWords({ words: offered }, answerOfTicks(places))
      expect(read).toEqual(places.toSorted((a, b) => a - b).map((place) => `word ${place}`))
    }),
  )
})

describe('as a row keeps it', () => {
  test.each([likingQuestion('Aftertaste'), sweet, words, { ...sweet, low: null, high: null }] as const)(
    'there and back: %o',
    (question) => expect(questionOf(columnsOf(question))).toEqual(question),
  )

  test('what cannot be read is asked as liking, and an end that is no text is not said', () => {
    expect(questionOf({ name: 'x', kind: 'hedonic', options: '{' })).toEqual(likingQuestion('x'))
    expect(questionOf({ name: 'x', kind: 'just-right-5', options: '{"low":3,"high":"too much"}' })).toMatchObject({
      low: null,
      high: 'too much',
    })
    for (const options of ['null', '[]', '7', '"words"', '{"words":{}}', '{"words":[1,2]}'])
      for (const kind of questionKinds) expect(questionOf({ name: 'x', kind, options }).words).toEqual([])
  })
})

test('answers in words', () => {
  expect(sayAnswer(words, 5)).toBe('nutty, flat')
  expect(sayAnswer(words, 0)).toBe('none of the words')
  expect(sayAnswer(sweet, 1)).toBe('not sweet enough, by far')
  expect(sayAnswer(likingQuestion('x'), 7)).toBe('7')
})

test('a question that cannot be asked', () => {
  expect(questionProblem(words)).toBeNull()
  expect(questionProblem({ ...words, words: ['nutty'] })).toBe('words-too-few')
  expect(questionProblem({ ...words, words: ['nutty', ' Nutty'] })).toBe('words-twice')
  expect(questionProblem({ ...words, words: Array.from({ length: 15 }, (_, at) => `w${at}`) })).toBe('words-too-few')
  expect(questionProblem({ ...sweet, high: 'Not sweet enough ' })).toBe('ends-alike')
  expect(questionProblem(likingQuestion('x'))).toBeNull()
})

// 20 s and 8 s a question: common practice, no source
test('a cup of more than two minutes is long', () => {
  expect(secondsPerCup(1)).toEqual({ seconds: 28, isLong: false })
  expect(secondsPerCup(12)).toEqual({ seconds: 116, isLong: false })
  expect(secondsPerCup(13)).toEqual({ seconds: 124, isLong: true })
})
