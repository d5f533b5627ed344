import { expect, test } from 'vitest'
import { answeredOn, type KeptAnswers } from '@/lib/panel/answer-source'

const serving = (more: Partial<KeptAnswers> = {}): KeptAnswers =>
  Object.freeze({
    isSkipped: false,
    skipSource: null,
    hasComment: false,
    commentSource: null,
    scoreSources: [],
    ...more,
  })

test('nothing said is nobody’s', () => {
  expect(answeredOn(serving())).toEqual({ answer: null, comment: null })
})

test('scores say whose they are, and one from the phone makes the whole cup the phone’s', () => {
  expect(answeredOn(serving({ scoreSources: ['paper', 'paper'] })).answer).toBe('paper')
  expect(answeredOn(serving({ scoreSources: ['phone'] })).answer).toBe('phone')
  expect(answeredOn(serving({ scoreSources: ['paper', 'phone'] })).answer).toBe('phone')
})

test('a skip and a comment say whose they are', () => {
  expect(answeredOn(serving({ isSkipped: true, skipSource: 'paper' })).answer).toBe('paper')
  expect(answeredOn(serving({ isSkipped: true, skipSource: 'phone' })).answer).toBe('phone')
  expect(answeredOn(serving({ hasComment: true, commentSource: 'paper' })).comment).toBe('paper')
  expect(answeredOn(serving({ hasComment: true, commentSource: 'phone' }))).toEqual({ answer: null, comment: 'phone' })
  expect(answeredOn(serving({ hasComment: true, commentSource: 'phone', scoreSources: ['paper'] }))).toEqual({
    answer: 'paper',
    comment: 'phone',
  })
})

test('what was kept before sources were is the phone’s, unless every score of the cup is from paper', () => {
  expect(answeredOn(serving({ hasComment: true })).comment).toBe('phone')
  expect(answeredOn(serving({ isSkipped: true })).answer).toBe('phone')
  expect(answeredOn(serving({ hasComment: true, scoreSources: ['paper', 'phone'] })).comment).toBe('phone')
  expect(answeredOn(serving({ hasComment: true, isSkipped: true, scoreSources: ['paper'] }))).toEqual({
    answer: 'paper',
    comment: 'paper',
  })
})

test('a word that is no source is taken for the phone’s', () => {
  expect(answeredOn(serving({ scoreSources: ['fax'] })).answer).toBe('phone')
  expect(answeredOn(serving({ hasComment: true, commentSource: 'fax', scoreSources: ['paper'] })).comment).toBe('phone')
})
