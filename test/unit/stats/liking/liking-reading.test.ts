import { expect, test } from 'vitest'
import { likingReading } from '@/lib/stats/liking/liking-reading'
import { cupDifference } from '@/lib/stats/liking/marginal-mean'
import { smallPanel } from '../../../support/small-panel'

test('one taster, or one cup, has no model and no errors', () => {
  const { rows } = smallPanel()
  expect(likingReading(rows.slice(0, 3), {})).toMatchObject({ model: null, errors: null })
  expect(
    likingReading(
      rows.filter(({ cup }) => cup === 'c0'),
      {},
    ),
  ).toMatchObject({ model: null, errors: null })
})

test('scores that cups and tasters explain exactly have errors of nothing on n − 1 degrees of freedom', () => {
  const rows = [1, 3, 6, 2].flatMap((own, taster) =>
    [0, 1, 3].map((effect, cup) => ({ taster: `t${taster}`, cup: `c${cup}`, score: own + effect })),
  )
  const { model, errors } = likingReading(rows, {})
  expect(model?.why).toBe('no residual')
  const error = model && errors?.(cupDifference(model.design, 0, 1))
  expect(error?.se).toBeLessThan(1e-12)
  expect(error?.df).toBeCloseTo(3, 8)
})

test('a tree of scores leaves no covariance to work with', () => {
  const rows = [
    { taster: 'ann', cup: 'A', score: 5 },
    { taster: 'ann', cup: 'B', score: 6 },
    { taster: 'bo', cup: 'B', score: 5 },
    { taster: 'bo', cup: 'C', score: 7 },
  ]
  expect(likingReading(rows, {}).errors).toBeNull()
})

test('few repeats are averaged, six or a replicate column are a level of their own', () => {
  const { rows } = smallPanel()
  const again = rows.slice(0, 5)
  expect(likingReading([...rows, ...again], {}).repeats).toBe('averaged')
  expect(likingReading([...rows, ...again], { replicated: true }).repeats).toBe('own variance')
  expect(likingReading([...rows, ...rows.slice(0, 6)], {}).repeats).toBe('own variance')
})
