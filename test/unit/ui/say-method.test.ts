import { expect, test } from 'vitest'
import { sayMethod } from '@/app/(house)/panels/[panelId]/result/say-method'
import { acceptance } from '@/lib/stats/liking/acceptance'
import { smallPanel } from '../../support/small-panel'

const answer = (more: object = {}) => acceptance(smallPanel().rows, { level: 0.95, ...more })

test('the joint intervals carry the claims, and nothing is named as carrying that does not', () => {
  const liking = answer()
  const { carries, beside } = sayMethod(liking, false)
  expect(carries).toContain(`the joint intervals of the ${liking.plan.pairs} planned comparisons, and off nothing else`)
  expect(carries).toMatch(/CR2.*hold together at 95 % \(Bonferroni\)/)
  expect([carries, ...beside].join()).not.toMatch(/Holm|Tukey|Dunnett|margin|signed rank/)
  expect(beside.join()).toMatch(/taken alone.*not planned.*preferred.*one spread/)
})

test('one pair has one interval; a margin has a level of its own', () => {
  const { carries } = sayMethod(answer({ plan: 'pair', pair: ['c0', 'c1'] }), true)
  expect(carries).toContain('the interval of the one planned comparison')
  expect(carries).not.toMatch(/Bonferroni/)
  expect(carries).toContain('by the margin is read off the same, at 90 %')
})

test('a test that was not made is not named', () => {
  const { beside } = sayMethod(
    { ...answer(), overall: { ...answer().overall, F: null, p: null }, position: null },
    false,
  )
  expect(beside.join()).not.toMatch(/F of|place/)
})
