import { expect, test } from 'vitest'
import { orderEffects } from '@/lib/stats/liking/order-effect'
import { scoreTable } from '@/lib/stats/liking/score-table'
import { smallPanel } from '../../../support/small-panel'

test('no positions, no answer and no note', () => {
  const rows = smallPanel().rows.map((row) => ({ ...row, position: null }))
  expect(orderEffects(scoreTable(rows, false), 'none', 'satterthwaite')).toEqual({
    position: null,
    carryOver: null,
    notes: [],
  })
})

test('positions are a factor with a mean each', () => {
  const { position } = orderEffects(smallPanel().table, 'none', 'satterthwaite')
  expect(position?.df1).toBe(2)
  expect(position?.means).toHaveLength(3)
})

test('an order that follows the cups has a sentence instead of a test', () => {
  const rows = smallPanel().rows.map((row) => ({ ...row, position: Number(row.cup.slice(1)) + 1 }))
  const { position, notes } = orderEffects(scoreTable(rows, false), 'none', 'satterthwaite')
  expect(position).toBeNull()
  expect(notes.join(' ')).toMatch(/cannot be told apart/)
})

test('two cups at one position leave carry-over unsaid', () => {
  const rows = smallPanel().rows.map((row, i) => ({ ...row, position: i % 3 === 2 ? 1 : (i % 3) + 1 }))
  const { carryOver, notes } = orderEffects(scoreTable(rows, false), 'none', 'satterthwaite')
  expect(carryOver).toBeNull()
  expect(notes.join(' ')).toMatch(/same position/)
})
