import { expect, test } from 'vitest'
import { seatState } from '@/lib/panel/seat-progress'

const seat = (more: Partial<Parameters<typeof seatState>[0]>) =>
  seatState({ taken: true, left: false, barred: false, aside: false, settled: 0, cups: 4, ...more })

test('a seat nobody took is free', () => expect(seat({ taken: false })).toBe('free'))
test('a taken seat is tasting until its last cup is settled', () => {
  expect(seat({})).toBe('tasting')
  expect(seat({ settled: 3 })).toBe('tasting')
  expect(seat({ settled: 4 })).toBe('finished')
})
test('who leaves after the last cup has finished', () => {
  expect(seat({ left: true, settled: 3 })).toBe('left')
  expect(seat({ left: true, settled: 4 })).toBe('finished')
})
test('a seat without cups cannot have finished', () => expect(seat({ cups: 0 })).toBe('tasting'))

test('whose taster knows too much is barred, unless it had finished or left before', () => {
  expect(seat({ barred: true, settled: 3 })).toBe('barred')
  expect(seat({ barred: true, settled: 4 })).toBe('finished')
  expect(seat({ barred: true, left: true })).toBe('left')
})

test('a seat that is set aside is that before anything else', () => {
  expect(seat({ aside: true })).toBe('set-aside')
  expect(seat({ aside: true, settled: 4 })).toBe('set-aside')
  expect(seat({ aside: true, barred: true, left: true })).toBe('set-aside')
})
