/**
 * What a plan comes to while it is typed. Tasters and powers: test/reference/data/planned-power.json (R's power.t.test); the spread of
 * the closed panel: lme4, test/reference/data/panel-of-eight.json.
 */
import { readFileSync } from 'node:fs'
import { afterEach, beforeEach, expect, test } from 'vitest'
import power from '@/test/reference/data/planned-power.json'
import { PlanFiguresForm } from '@/lib/forms/plan-figures-form'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readPlanFigures } from '@/lib/tasks/plan/read-plan-figures'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { cafeForTest, type TestCafe } from '../../support/cafe'
import { scoreAsInR } from '../../support/panel-of-eight'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const typed = (more: Record<string, string> = {}) =>
  PlanFiguresForm.parse({
    recipe: cafe.recipeId,
    cups: '3',
    seats: '24',
    aim: 'best',
    kind: 'all-pairs',
    difference: '1',
    ml: '40',
    ...more,
  })
const ask = (more: Record<string, string> = {}) => readPlanFigures(cafe.world, cafe.owner, typed(more))

async function closeOne(): Promise<void> {
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan({ seatCount: 9, aspects: [] }))
  if (!planned.ok) throw new Error(planned.reason)
  await openPanel(cafe.world, cafe.owner, planned.value)
  await scoreAsInR(cafe, planned.value)
  expect((await ask()).spread.from).toBe('assumed')
  await closePanel(cafe.world, cafe.owner, planned.value)
}

test('where nobody has tasted yet it says that it assumes', async () => {
  expect(await ask()).toMatchObject({
    spread: { sd: 1.4, from: 'assumed', panels: 0 },
    pairs: 3,
    perTasterMl: 120,
    perCupMl: 1104, // by hand: 24 · 40 · 1.15
  })
})

test('an open panel tells nothing of its scores; a closed one gives its spread, to this drink first', async () => {
  await closeOne()
  const { variance } = JSON.parse(readFileSync('test/reference/data/panel-of-eight.json', 'utf8')) as {
    variance: { residual: number }
  }
  const { spread } = await ask()
  expect(spread).toMatchObject({ from: 'recipe', panels: 1 })
  expect(spread.sd).toBeCloseTo(Math.sqrt(variance.residual), 5)
  expect((await ask({ recipe: 'another' })).spread).toMatchObject({ from: 'cafe', panels: 1 })
  const stranger = await readPlanFigures(cafe.world, cafe.stranger, typed())
  expect(stranger.spread).toMatchObject({ from: 'assumed' })
})

test('tasters and power are R’s for the plan that is typed', async () => {
  // sd 1.4 is not in R's table: n at least that for 1.2 and at most that for 1.5
  const row = (sd: number, plan: string, cups: number) =>
    power.better.find((one) => one.sd === sd && one.plan === plan && one.cups === cups && one.difference === 1)
  for (const [kind, plan, aim] of [
    ['all-pairs', 'all', 'best'],
    ['against-house', 'against', 'better'],
    ['one-pair', 'pair', 'better'],
  ] as const) {
    const found = await ask({ kind, aim })
    const [low, high] = [row(1.2, plan, 3), row(1.5, plan, 3)]
    expect(found.tasters).toBeGreaterThan(low?.n ?? NaN)
    expect(found.tasters).toBeLessThan(high?.n ?? NaN)
    expect(found.power).toBeLessThan(low?.powerAt24 ?? NaN)
    expect(found.power).toBeGreaterThan(high?.powerAt24 ?? NaN)
  }
})

test('fewer cups each take more tasters, by the efficiency of the blocks', async () => {
  const all = await ask({ cups: '6' })
  const some = await ask({ cups: '6', perTaster: '4' })
  // by hand: (4 − 1)/(6 − 1) of what a taster of all six tells
  expect(some.tasters).toBe(Math.ceil(((all.tasters ?? NaN) * 5) / 3))
  expect(some.perTasterMl).toBe(160)
})

test.each([
  [{ cups: '1' }, { tasters: null, power: null, pairs: null, perTasterMl: null }],
  [{ seats: '' }, { power: null, perCupMl: null }],
  [{ difference: 'much' }, { tasters: null, power: null }],
  [{ aim: 'as-good', kind: 'against-house' }, { tasters: null }],
])('what is not typed yet is not known: %j', async (more, figures) => {
  expect(await ask(more)).toMatchObject(figures)
})
