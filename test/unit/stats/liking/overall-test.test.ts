import { expect, test } from 'vitest'
import { likingReading } from '@/lib/stats/liking/liking-reading'
import { overallTest } from '@/lib/stats/liking/overall-test'
import { smallPanel } from '../../../support/small-panel'

test('in a complete panel it is the F of the two-way analysis of variance', () => {
  const { rows, F, df2 } = smallPanel()
  const got = overallTest(likingReading(rows, {}).model, 3)
  expect(got.F).toBeCloseTo(F, 8)
  expect(got.df2).toBeCloseTo(df2, 6)
})

test('without a model there is nothing but the degrees of freedom of the cups', () => {
  expect(overallTest(null, 3)).toEqual({ F: null, df1: 2, df2: null, p: null })
})
