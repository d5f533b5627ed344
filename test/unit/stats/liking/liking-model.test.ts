import { expect, test } from 'vitest'
import { likingModel } from '@/lib/stats/liking/liking-model'
import { scoreTable } from '@/lib/stats/liking/score-table'
import { smallPanel } from '../../../support/small-panel'

const plain = { position: false, carryOver: false }

test('a full panel is fitted with the variances of its analysis of variance', () => {
  const { table, taster, residual } = smallPanel()
  const model = likingModel(table, 'none', 'satterthwaite', plain)
  expect(model.why).toBeNull()
  expect(model.variance.taster).toBeCloseTo(taster, 8)
  expect(model.variance.residual).toBeCloseTo(residual, 8)
  expect(model.variance.tasterByCup).toBeNull()
})

test('repeats that never differ leave residual 0, and their means the other variances', () => {
  const { rows, taster, residual } = smallPanel()
  const model = likingModel(scoreTable([...rows, ...rows], false), 'own variance', 'satterthwaite', plain)
  expect(model.variance.residual).toBe(0)
  expect(model.variance.tasterByCup).toBeCloseTo(residual, 8)
  expect(model.variance.taster).toBeCloseTo(taster, 8)
})

test('an order that always follows the cups cannot be told apart from them', () => {
  const rows = smallPanel().rows.map((row) => ({ ...row, position: Number(row.cup.slice(1)) + 1 }))
  const model = likingModel(scoreTable(rows, false), 'none', 'satterthwaite', { position: true, carryOver: false })
  expect(model).toMatchObject({ why: 'aliased', effects: null })
})
