import { expect, test } from 'vitest'
import { SOURCE } from '@/lib/drink/source'

test('what is from memory or an estimate says so', () => {
  expect(SOURCE.iceDensity).toContain('from memory')
  expect(SOURCE.norrish).toContain('from memory')
  expect(SOURCE.heatLeak).toContain('estimate')
  expect(SOURCE.caffeineModel).toContain('estimate')
  expect(SOURCE.brewTwo).toContain('common practice')
})

test('no two sources say the same', () => {
  const all = Object.values(SOURCE)
  expect(new Set(all).size).toBe(all.length)
})
