import { expect, test } from 'vitest'
import { fillingList, servingList, type ServingRow } from '@/lib/panel/pouring-list'

const row = (seat: number, position: number, letter: string, code: string): ServingRow =>
  Object.freeze({ servingId: `${seat}-${position}`, seat, seatLeft: seat === 2, position, letter, code, poured: false })

test('jugs are filled in the order of their letters', () => {
  const jugs = Object.freeze([
    { letter: 'M', trialName: 'Two dates', trialNumber: 2 },
    { letter: 'C', trialName: 'House', trialNumber: 1 },
  ])
  expect(fillingList(jugs).map((jug) => jug.letter)).toEqual(['C', 'M'])
})

test('trays go by seat number, cups as that seat tastes them', () => {
  const rows = Object.freeze([row(10, 1, 'M', '417'), row(2, 2, 'M', '528'), row(2, 1, 'C', '904')])
  const trays = servingList(rows)
  expect(trays.map((tray) => [tray.seat, tray.left, tray.cups.map((cup) => `${cup.letter} ${cup.code}`)])).toEqual([
    [2, true, ['C 904', 'M 528']],
    [10, false, ['M 417']],
  ])
})

test('a tray carries nothing but serving, letter, code and tick', () => {
  const [tray] = servingList([row(1, 1, 'C', '904')])
  expect(tray?.cups.map((cup) => Object.keys(cup).sort())).toEqual([['code', 'letter', 'poured', 'servingId']])
})
