import { expect, test } from 'vitest'
import { oneFactorLoadings } from '@/lib/stats/distribution/one-factor'

const products = (loadings: readonly number[]) => loadings.map((a, i) => loadings.map((b, j) => (i === j ? 1 : a * b)))

test.each([[[0.6, 0.75, 0.8]], [[0.5, -0.4, 0.9, 0.2]], [[0.7, 0, 0.3, 0]], [[0, 0, 0]], [[0.8, 0.5]], [[0.3, -0.9]]])(
  'loadings %s are found up to sign',
  (loadings) => {
    const found = oneFactorLoadings(products(loadings)) ?? []
    expect(found).toHaveLength(loadings.length)
    products(found).forEach((row, i) =>
      row.forEach((r, j) => expect(Math.abs(r - (products(loadings)[i]?.[j] ?? NaN))).toBeLessThan(1e-12)),
    )
  },
)

test('correlations that no loadings give have none', () => {
  expect(
    oneFactorLoadings([
      [1, 0.4, 0.3],
      [0.4, 1, -0.2],
      [0.3, -0.2, 1],
    ]),
  ).toBeNull()
  expect(
    oneFactorLoadings([
      [1, 0.9, 0.2],
      [0.9, 1, 0.05],
      [0.2, 0.05, 1],
    ]),
  ).toBeNull()
})

test('a deviation of 1e-6 is seen', () => {
  const near = products([0.5, 0.6, 0.7, 0.8]).map((row, i) => row.map((r, j) => (i + j === 1 ? r + 1e-6 : r)))
  expect(oneFactorLoadings(near)).toBeNull()
})
