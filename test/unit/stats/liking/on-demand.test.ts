import { expect, test } from 'vitest'
import { onDemand } from '@/lib/stats/liking/on-demand'

test('nothing is computed before it is asked for, and then once', () => {
  let times = 0
  const answer = onDemand(() => {
    times++
    return null
  })
  expect(times).toBe(0)
  expect([answer(), answer()]).toEqual([null, null])
  expect(times).toBe(1)
})
