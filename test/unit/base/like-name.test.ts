import { expect, test } from 'vitest'
import { likeName } from '@/lib/base/like-name'

test('case, spaces and how an accent is written do not make another name', () => {
  expect(likeName('  ANA  maría ')).toBe(likeName('Ana Mari\u0301a'))
  expect(likeName('Ana')).not.toBe(likeName('Anna'))
})
