import { expect, test } from 'vitest'
import { chooseTorture } from '@/lib/commands/torture/options'

const usual = { seed: 11, phones: 60, kills: 50, lock: 60, closes: 5, signals: 3 }

test('what is not said is as usual, and the seed is chosen by chance', () => {
  expect(chooseTorture([], () => 11)).toEqual({ ok: true, wanted: usual })
  expect(chooseTorture(['--kills', '3', '--seed', '7'], () => 11)).toEqual({
    ok: true,
    wanted: { ...usual, kills: 3, seed: 7 },
  })
})

test.each([
  [['--kill', '3'], "'--kill' is not an option; there are --seed N"],
  [['--kills'], '--kills takes a whole number up to 10000'],
  [['--kills', '-1'], "got '-1'"],
  [['--phones', '1e9'], "got '1e9'"],
  [['--phones', '201'], 'up to 200'],
  [['--phones', '0'], 'without a phone'],
])('%j is refused', (words, says) => {
  expect(chooseTorture(words, () => 11)).toMatchObject({ ok: false, problem: expect.stringContaining(says) })
})
