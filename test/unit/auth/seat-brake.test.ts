import { expect, test } from 'vitest'
import { seatBrake, SEATS_A_MINUTE } from '@/lib/auth/seat-brake'

const at = (seconds: number) => new Date(Date.parse('2026-03-14T18:00:00Z') + seconds * 1000)

test('an address is given so many seats within a minute, and is told when the next one comes', () => {
  const brake = seatBrake()
  for (let seat = 0; seat < SEATS_A_MINUTE; seat++) expect(brake.take('10.0.0.7', at(seat))).toBe(0)
  expect(brake.take('10.0.0.7', at(20))).toBe(40)
  expect(brake.take('10.0.0.7', at(59.5))).toBe(1)
  expect(brake.take('10.0.0.7', at(60))).toBe(0)
  // The second seat of the first minute leaves the window a second later.
  expect(brake.take('10.0.0.7', at(60))).toBe(1)
  expect(brake.take('10.0.0.8', at(20))).toBe(0)
})

test('being told to wait does not make the wait longer', () => {
  const brake = seatBrake()
  for (let seat = 0; seat < SEATS_A_MINUTE; seat++) brake.take('10.0.0.7', at(0))
  for (let second = 1; second < 60; second++) expect(brake.take('10.0.0.7', at(second))).toBe(60 - second)
  expect(brake.take('10.0.0.7', at(60))).toBe(0)
})

test('a seat that did not come about is not counted', () => {
  const brake = seatBrake()
  for (let turn = 0; turn < 3 * SEATS_A_MINUTE; turn++) {
    expect(brake.take('10.0.0.7', at(turn))).toBe(0)
    brake.giveBack('10.0.0.7', at(turn))
  }
  expect(brake.size).toBe(0)
  brake.giveBack('never-seen', at(0))
  expect(brake.size).toBe(0)
})

test('a clock that was set back keeps nobody waiting', () => {
  const brake = seatBrake()
  for (let seat = 0; seat < SEATS_A_MINUTE; seat++) brake.take('10.0.0.7', at(3600))
  expect(brake.take('10.0.0.7', at(0))).toBe(0)
})

test('however many addresses come, few are remembered, and those that come again stay', () => {
  const brake = seatBrake()
  for (let seat = 0; seat < SEATS_A_MINUTE; seat++) brake.take('10.0.0.7', at(0))
  for (let address = 0; address < 10_000; address++) {
    brake.take(`fd00::${address}`, at(1))
    if (address % 500 === 0) expect(brake.take('10.0.0.7', at(1))).toBe(59)
  }
  expect(brake.size).toBe(2000)
  expect(brake.take('10.0.0.7', at(1))).toBe(59)
})
