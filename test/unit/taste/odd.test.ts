/** The phone's way through sets that may be told apart, without a browser. */
import { expect, test } from 'vitest'
import { oddScreen } from '@/app/taste/phone/kinds/odd'
import { findSetAsk } from '@/app/taste/phone/kinds/set-screen'
import { placeOf, withMessage } from '@/app/taste/phone/progress'
import { unsentLines } from '@/app/taste/phone/unsent'
import type { SeatState } from '@/lib/panel/blind'
import { protocols, type Protocol } from '@/lib/panel/kinds/difference-sets'

const ask = (protocol: Protocol, property: string | null = null) => ({ kind: 'odd', protocol, property }) as const
const codes = ['417', '802', '551', '338', '926', '174']
const seat = (seen: number): SeatState => ({
  ...{ sitting: 'turn', seat: 7, title: 'A drink', open: true, gone: null, scale: [] },
  attributes: ['Which of the three is different'],
  asks: [ask('triangle')],
  cups: codes.map((code, at) => ({
    ...{ position: at + 1, code, seen: at < seen, locked: false, skipped: false },
    ...{ comment: '', commentRevision: 0, commentKept: false, answers: [] },
  })),
  sets: [1, 2].map((number) => ({
    ...{ number, positions: [1, 2, 3].map((at) => at + 3 * (number - 1)), locked: false, skipped: false },
    answers: [null],
  })),
})
const sent = { sitting: 'turn', revision: 1, key: 'k' }

test('one set after the other: the second begins once the first is done', () => {
  expect(placeOf(seat(3), null, false)).toEqual({ kind: 'set', set: 0 })
  const second = withMessage(seat(3), { ...sent, set: 1, act: 'lock' })
  expect(placeOf(second, null, false)).toEqual({ kind: 'code', cup: 3 })
  expect(placeOf(withMessage(seat(6), { ...sent, set: 1, act: 'lock' }), null, false)).toEqual({ kind: 'set', set: 1 })
  const skipped = withMessage(second, { ...sent, set: 2, act: 'skip', reason: 'spilt-or-missing' })
  expect(placeOf(skipped, null, false)).toEqual({ kind: 'thanks' })
})

test.each(protocols)('%s: what is asked tells no cup, and says that one has to be chosen', (protocol) => {
  const { question, lead } = oddScreen(ask(protocol, protocol.endsWith('afc') ? 'sweeter' : null))
  expect(question).toMatch(/^Which (one|two) .*\?$/)
  expect(lead).toContain('from left to right')
  expect(lead).toContain('a guess is an answer')
  expect(`${question} ${lead}`).not.toMatch(/null|undefined|\b[AB]\b/)
})

test('the property is asked in the owner’s word', () => {
  expect(oddScreen(ask('two-afc', 'sweeter')).question).toBe('Which one is sweeter?')
  expect(findSetAsk({ asks: [ask('three-afc', 'less bitter')] })?.screen.question).toBe('Which one is less bitter?')
})

test('what was not sent is told in words to copy', () => {
  const line = (protocol: Protocol, answer: number[], property: string | null = null) =>
    unsentLines({ ...seat(3), asks: [ask(protocol, property)] }, [
      { id: 1, sitting: 'turn', message: { ...sent, set: 1, act: 'answer', attribute: 0, answer } },
    ]).map((said) => said.replaceAll('\u00a0', ' '))
  expect(line('triangle', [2])).toEqual(['Cups 4 1 7, 8 0 2 and 5 5 1: different is 8 0 2'])
  expect(line('duo-trio', [3])).toEqual(['Cups 4 1 7, 8 0 2 and 5 5 1: same as the reference is 5 5 1'])
  expect(line('tetrad', [1, 3])).toEqual(['Cups 4 1 7, 8 0 2 and 5 5 1: the same are 4 1 7 and 5 5 1'])
  expect(line('two-afc', [1], 'sweeter')).toEqual(['Cups 4 1 7, 8 0 2 and 5 5 1: sweeter is 4 1 7'])
})
