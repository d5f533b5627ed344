import { expect, test } from 'vitest'
import {
  findTooMuch,
  givenBlind,
  knowsTooMuch,
  seatGone,
  whoKnowsTooMuch,
  type SeenList,
} from '@/lib/panel/who-may-taste'

const at = (minute: number) => new Date(Date.UTC(2026, 2, 14, 10, minute))
const seen = (list: SeenList['list'], minute: number): SeenList => Object.freeze({ list, at: at(minute) })

test('who has opened nothing, or the filling list alone, may taste', () => {
  expect(knowsTooMuch([])).toBeNull()
  expect(knowsTooMuch([seen('filling', 1), seen('filling', 2)])).toBeNull()
})

test('the serving list alone is too much, from its first opening on', () => {
  const openings = [seen('serving', 7), seen('serving', 3)]
  expect(knowsTooMuch(openings)).toEqual({ why: 'opened-serving-list', since: at(3) })
})

test('both lists are too much from the opening of the serving list, whichever came first', () => {
  const since = { why: 'opened-both-lists', since: at(5) }
  expect(knowsTooMuch([seen('filling', 1), seen('serving', 5)])).toEqual(since)
  expect(knowsTooMuch([seen('serving', 5), seen('filling', 9)])).toEqual(since)
})

test('of those who opened lists, the ones who have the serving list may not taste', () => {
  const by = (userId: string, list: SeenList['list'], minute: number) => ({ ...seen(list, minute), userId })
  const openings = Object.freeze([
    by('ana', 'filling', 1),
    by('ben', 'serving', 2),
    by('cleo', 'serving', 3),
    by('cleo', 'filling', 4),
    by('cleo', 'serving', 5),
  ])
  expect(whoKnowsTooMuch(openings)).toEqual([
    { userId: 'ben', why: 'opened-serving-list' },
    { userId: 'cleo', why: 'opened-both-lists' },
  ])
})

test('the reason is read from what the database keeps, the lesser one for a word it does not know', () => {
  expect(findTooMuch({ barredAt: null, barredWhy: null })).toBeNull()
  expect(findTooMuch({ barredAt: at(1), barredWhy: 'opened-both-lists' })).toBe('opened-both-lists')
  expect(findTooMuch({ barredAt: at(1), barredWhy: null })).toBe('opened-serving-list')
})

const shut = (seat: { onPaper?: boolean; barredAt?: Date; setAsideAt?: Date; closedAt?: Date }) =>
  seatGone({
    onPaper: seat.onPaper ?? false,
    barredAt: seat.barredAt ?? null,
    setAsideAt: seat.setAsideAt ?? null,
    panel: { closedAt: seat.closedAt ?? null },
  })

test('a seat is shut to its phone on paper and when its taster knows too much, which outweighs paper', () => {
  expect(shut({})).toBeNull()
  expect(shut({ onPaper: true })).toBe('on-paper')
  expect(shut({ barredAt: at(1) })).toBe('knows-too-much')
  expect(shut({ onPaper: true, barredAt: at(1) })).toBe('knows-too-much')
})

test('a seat that is set aside is shut to its phone, unless that was after closing', () => {
  expect(shut({ setAsideAt: at(3) })).toBe('set-aside')
  expect(shut({ setAsideAt: at(3), onPaper: true })).toBe('set-aside')
  expect(shut({ setAsideAt: at(3), closedAt: at(5) })).toBe('set-aside')
  expect(shut({ setAsideAt: at(6), closedAt: at(5) })).toBeNull()
})

test('only what was given before the list was opened was given blind', () => {
  expect(givenBlind(at(4), null)).toBe(true)
  expect(givenBlind(at(4), at(5))).toBe(true)
  expect(givenBlind(at(5), at(5))).toBe(false)
  expect(givenBlind(at(6), at(5))).toBe(false)
})
