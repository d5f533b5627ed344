/**
 * A panel of eight scored and closed, and what its result page says, against R.
 * Made   test/reference/make/panel-of-eight.R: t.test(paired = TRUE), p.adjust("holm"), lmer; tolerance 1e-6
 */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { parse } from 'csv-parse/sync'
import { firstVerdict as acceptance } from '@/lib/stats/liking/first-verdict'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { decide } from '@/lib/tasks/result/decide'
import { exportColumns, exportPanel, exportScores, scoreColumns } from '@/lib/tasks/result/export-panel'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { readResult } from '@/lib/tasks/result/read-result'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'
import { fromR, scoreAsInR } from '@/test/support/panel-of-eight'

const within = 1e-6

let cafe: TestCafe
let panelId: string

beforeEach(async () => {
  cafe = await cafeForTest()
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan({ seatCount: 9, aspects: [] }))
  if (!planned.ok) throw new Error(planned.reason)
  panelId = planned.value
  expect(await openPanel(cafe.world, cafe.owner, panelId)).toMatchObject({ ok: true })
})
afterEach(() => cafe.close())

test('an open panel has no result, no scores file and no JSON for anybody', async () => {
  await scoreAsInR(cafe, panelId)
  expect(await readResult(cafe.world, cafe.owner, panelId)).toBeNull()
  expect(await exportScores(cafe.world, cafe.owner, panelId)).toBeNull()
  expect(await exportColumns(cafe.world, cafe.owner, panelId)).toBeNull()
  expect(await exportPanel(cafe.world, cafe.owner, panelId)).toBeNull()
})

test('means, differences, intervals and adjusted p agree with R, and so does the number of tasters', async () => {
  await scoreAsInR(cafe, panelId)
  await closePanel(cafe.world, cafe.owner, panelId)
  const result = await readResult(cafe.world, cafe.owner, panelId)
  for (const cup of result?.liking?.cups ?? []) expect(cup.mean).toBeCloseTo(fromR.means[cup.cup] ?? NaN, 6)
  expect(result?.liking?.cups).toHaveLength(3)
  for (const pair of fromR.pairs) {
    const ours = result?.liking?.pairs.find((one) => one.a === pair.a && one.b === pair.b)
    expect(Math.abs((ours?.paired.difference ?? NaN) - pair.difference)).toBeLessThan(within)
    expect(Math.abs((ours?.paired.interval?.[0] ?? NaN) - pair.low)).toBeLessThan(within)
    expect(Math.abs((ours?.paired.interval?.[1] ?? NaN) - pair.high)).toBeLessThan(within)
    expect(Math.abs((ours?.verdict.pHolm ?? NaN) - pair.pHolm)).toBeLessThan(within)
  }
  expect(result?.needed?.tasters).toBe(fromR.tastersForOnePoint)
})

test('the verdict says what R’s p allow: B over A, and nothing about C', async () => {
  await scoreAsInR(cafe, panelId)
  await closePanel(cafe.world, cafe.owner, panelId)
  const result = await readResult(cafe.world, cafe.owner, panelId)
  expect(result?.verdict.told).toBe('better')
  expect(result?.verdict.sentence).toContain(
    'Cup B (Velvetine 2) is liked better than cup A (Velvetine 1), by 1.3 to 2.4 points',
  )
  expect(result?.verdict.sentence).toContain(
    'between cup B (Velvetine 2) and cup C (Velvetine 3) this panel cannot tell',
  )
  expect(result?.missing.notTaken).toEqual([9])
})

test('the scores file, read as the stats command reads it, gives the page’s numbers', async () => {
  await scoreAsInR(cafe, panelId)
  await closePanel(cafe.world, cafe.owner, panelId)
  const csv = await exportScores(cafe.world, cafe.owner, panelId)
  const lines: Record<string, string>[] = parse(csv ?? '', { columns: true })
  expect(Object.keys(lines[0] ?? {})).toEqual(scoreColumns.map(([name]) => name))
  expect(lines).toHaveLength(24)
  expect(lines[0]?.['comment']?.startsWith("'=")).toBe(true)
  const rows = lines.map((line) => ({
    taster: line['taster'] ?? '',
    cup: line['cup'] ?? '',
    score: Number(line['score']),
  }))
  const result = await readResult(cafe.world, cafe.owner, panelId)
  expect(acceptance(rows, { level: 0.95 }).pairs).toEqual(result?.liking?.pairs)
})

test('names of tasters do not leave with the files', async () => {
  await scoreAsInR(cafe, panelId)
  await closePanel(cafe.world, cafe.owner, panelId)
  const whole = `${await exportScores(cafe.world, cafe.owner, panelId)}${await exportPanel(cafe.world, cafe.owner, panelId)}`
  expect(whole).not.toMatch(/\bT[1-8]\b/)
})

test('a decision takes the next version, marks the panel decided and stands on the recipe’s page', async () => {
  await scoreAsInR(cafe, panelId)
  const { world, owner, trialIds, recipeId } = cafe
  const adopt = { kind: 'adopt', trialId: trialIds[1], reason: 'Liked better.' } as const
  expect(await decide(world, owner, panelId, adopt)).toMatchObject({ ok: false, reason: 'not-closed' })
  await closePanel(world, owner, panelId)
  expect(await decide(world, owner, panelId, { kind: 'keep', trialId: undefined, reason: 'x' })).toMatchObject({
    reason: 'no-house-recipe',
  })
  expect(await decide(world, owner, panelId, { ...adopt, trialId: trialIds[3] })).toMatchObject({
    reason: 'trial-not-served',
  })
  expect(await decide(world, owner, panelId, adopt)).toMatchObject({ ok: true, value: { recipeId, version: 1 } })
  expect(await decide(world, owner, panelId, { ...adopt, trialId: trialIds[2] })).toMatchObject({
    value: { version: 2 },
  })

  const reader = { ...owner, cafe: { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' } }
  const recipe = await readRecipe(world, reader, recipeId)
  expect(recipe?.house).toMatchObject({ version: 2, trial: { id: trialIds[2] } })
  expect(recipe?.decisions.map((one) => [one.version, one.by, one.panel?.id])).toEqual([
    [2, 'Ottoline', panelId],
    [1, 'Ottoline', panelId],
  ])
  expect(recipe?.panels[0]).toMatchObject({ stage: 'decided', tasters: 8 })
})

test('another café sees neither result nor files', async () => {
  await scoreAsInR(cafe, panelId)
  await closePanel(cafe.world, cafe.owner, panelId)
  expect(await readResult(cafe.world, cafe.stranger, panelId)).toBeNull()
  expect(await exportScores(cafe.world, cafe.stranger, panelId)).toBeNull()
  expect(
    await decide(cafe.world, cafe.stranger, panelId, { kind: 'test-again', trialId: undefined, reason: 'x' }),
  ).toMatchObject({ reason: 'not-closed' })
})
