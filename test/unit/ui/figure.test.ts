import { expect, test } from 'vitest'
import type { Figure } from '@/lib/drink/figure'
import { sayFigure } from '@/app/ui/figure'

const of = (value: number, unit: string): Figure => ({
  known: true,
  value,
  unit,
  formula: '',
  assumed: [],
  sources: [],
})

test('money has the decimals of its currency, wherever it stands', () => {
  expect(sayFigure(of(0.9, 'EUR'))).toBe('0.90\u00a0EUR')
  expect(sayFigure(of(11_856.02, 'VND'))).toBe('11,856\u00a0VND')
  expect(sayFigure(of(1.0944, 'EUR'), 4)).toBe('1.09\u00a0EUR')
})

test('all else as before', () => {
  expect([sayFigure(of(363.52, 'g')), sayFigure(of(12, '%'), 1)]).toEqual(['363.5\u00a0g', '12.0\u00a0%'])
})
