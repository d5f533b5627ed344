import { expect, test } from 'vitest'
import { checkConnectedCups } from '@/lib/stats/liking/connected-cups'
import { UnusableReadings } from '@/lib/stats/outcome'
import { scoreTable } from '@/lib/stats/liking/score-table'

const row = (taster: string, cup: string, session = 's') => ({ taster, cup, session, score: 5 })

test('cups joined through a taster are fine', () => {
  const table = scoreTable([row('ann', 'A'), row('ann', 'B'), row('bo', 'B'), row('bo', 'C')], false)
  expect(() => checkConnectedCups(table)).not.toThrow()
})

test('groups are named with their tasters, or with their sessions', () => {
  const apart = scoreTable([row('ann', 'A'), row('bo', 'B')], false)
  expect(() => checkConnectedCups(apart)).toThrow(UnusableReadings)
  expect(() => checkConnectedCups(apart)).toThrow(/cups A with tasters ann \| cups B with tasters bo/)
  const bySession = scoreTable([row('ann', 'A', 'Monday'), row('ann', 'B', 'Tuesday')], true)
  expect(() => checkConnectedCups(bySession)).toThrow(/sessions Monday/)
})
