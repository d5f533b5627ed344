import { expect, test } from 'vitest'
import { climb, plackettLuce } from '@/lib/stats/choice/plackett-luce'

test('two cups: the log odds of being put first', () => {
  // 3 of 4: log worths ± ½ log 3, information of the difference n p q = 0.75
  const fit = plackettLuce(
    [
      [0, 1],
      [0, 1],
      [1, 0],
      [0, 1],
    ],
    2,
  )
  if ('unbeaten' in fit) throw new Error('no fit')
  expect(fit.worth[0]).toBeCloseTo(Math.log(3) / 2, 10)
  expect(fit.se[0]).toBeCloseTo(Math.sqrt(1 / 0.75) / 2, 10)
})

test('worths have mean zero and do not depend on the order of rows', () => {
  const rankings = [
    [0, 1, 2],
    [2, 0, 1],
    [1, 2, 0],
    [0, 2, 1],
  ]
  const fit = plackettLuce(rankings, 3)
  if ('unbeaten' in fit) throw new Error('no fit')
  expect(fit.worth.reduce((sum, x) => sum + x, 0)).toBeCloseTo(0, 12)
  expect(plackettLuce(rankings.toReversed(), 3)).toEqual(fit)
})

test('an unbeaten set is named; broken rankings are refused', () => {
  expect(
    plackettLuce(
      [
        [0, 1, 2],
        [1, 0, 2],
      ],
      3,
    ),
  ).toEqual({ unbeaten: [0, 1] })
  expect(() => plackettLuce([[0, 0]], 2)).toThrow('twice')
  expect(() => plackettLuce([[0, 5]], 2)).toThrow('no such cup: 5')
})

test('the climb finds the top of a parabola', () => {
  const { at } = climb([0], ([x = 0]) => ({ value: -((x - 2) ** 2), gradient: [-2 * (x - 2)], information: [[2]] }))
  expect(at[0]).toBeCloseTo(2, 12)
})
