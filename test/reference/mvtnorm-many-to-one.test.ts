/**
 * Correlations that are no products: three contrasts against TVPACK (deterministic), more against Miwa's and Genz and
 * Bretz's algorithms. Made with make/mvtnorm-many-to-one.R; each case carries the error its algorithm states, and 1e-6
 * at least.
 */
import { expect, test } from 'vitest'
import reference from './data/mvtnorm-many-to-one.json'
import { manyToOneInside, manyToOneOutside, manyToOneQuantile } from '@/lib/stats/distribution/many-to-one'
import { oneFactorLoadings } from '@/lib/stats/distribution/one-factor'

const products = 'three, nearly products'

test('only one of the matrices is a product of loadings: the others test the general way', () => {
  for (const { name, correlation } of reference.cases) {
    expect(oneFactorLoadings(correlation) !== null, name).toBe(name === products)
  }
})

test.each(reference.cases)('$name, df $df, q $q agrees with R', ({ correlation, df, q, inside, within }) => {
  const freedom = Number(df)
  expect(Math.abs(manyToOneInside(q, freedom, correlation) - inside)).toBeLessThan(within)
  expect(Math.abs(manyToOneOutside(q, freedom, correlation) - (1 - inside))).toBeLessThan(within)
})

test('the quantile inverts the probability for a general matrix', () => {
  for (const { correlation, df } of reference.cases.filter(
    ({ q, correlation }) => q === 2.5 && correlation.length < 5,
  )) {
    const q = manyToOneQuantile(0.95, Number(df), correlation)
    expect(Math.abs(manyToOneInside(q, Number(df), correlation) - 0.95)).toBeLessThan(1e-9)
  }
})
