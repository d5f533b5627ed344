/** The plan of an order: what the form makes of what is typed, and what the plan comes to. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { PanelForm } from '@/lib/forms/panel-form'
import { PlanFiguresForm } from '@/lib/forms/plan-figures-form'
import { changePlan } from '@/lib/tasks/plan/change-plan'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readRankFigures } from '@/lib/tasks/plan/rank-figures'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

/** As the form sends it: what is hidden is sent all the same. */
const sent = (more: object = {}) => ({
  ...{ title: 'In which order', publicTitle: 'Three cold coffees', question: 'Which is best?', kind: 'rank' },
  ...{ above: '80', share: '65', aim: 'as-good', primaryKind: 'one-pair', smallestDifference: '1' },
  ...{ seatCount: '24', sampleMl: '40', nothingSeen: 'on' },
  cups: cafe.trialIds.slice(0, 3),
  ...more,
})
const messages = (typed: object) =>
  PanelForm.safeParse(typed).error?.issues.map(({ path, message }) => `${path.join('.')}: ${message}`)

test('an order asks for the best of all; what only a scale or a choice has is left out, though hidden fields are sent', async () => {
  const typed = PanelForm.parse(sent({ duplicate: cafe.trialIds[0], cupsPerTaster: '2', mayHaveNone: 'on' }))
  expect(typed).toMatchObject({ asks: { kind: 'rank', share: 80 }, aim: 'best', primaryKind: 'all-pairs' })
  expect(typed).toMatchObject({ pairA: null, pairB: null, duplicate: null, aspects: [], cupsPerTaster: null })
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, typed)
  const panelId = planned.ok ? planned.value : ''
  const panel = await cafe.db.panel.findUniqueOrThrow({ where: { id: panelId }, include: { attributes: true } })
  expect(panel).toMatchObject({ kind: 'rank', design: '{"share":80}', aim: 'best', primaryKind: 'all-pairs' })
  expect(panel.attributes).toMatchObject([{ position: 0, about: 'set', kind: 'rank', options: null }])
  // and back to a scale
  const liking = PanelForm.parse(sent({ kind: 'liking', aim: 'best' }))
  expect(await changePlan(cafe.world, cafe.owner, panelId, liking, null)).toMatchObject({ ok: true })
  expect((await readPanel(cafe.world, cafe.owner, panelId))?.plan.asks).toBeUndefined()
})

test('what keeps such a plan from being poured stands beside its field', () => {
  expect(messages(sent({ cups: cafe.trialIds.slice(0, 2) }))).toEqual([
    'cups: An order is of three to six cups. Of two, ask which one; of more, let each taster score some.',
  ])
  expect(messages(sent({ above: undefined }))).toEqual(['above: How many of 100 put the best above another?'])
  expect(messages(sent({ above: '50' }))).toEqual(['above: From 55 to 95, please.'])
})

test('the chance is that of R’s own panels, the tasters those of R’s exact test, and nothing is said of two cups', () => {
  const figures = (more: object) =>
    readRankFigures(
      PlanFiguresForm.parse({
        ...{ recipe: 'r', cups: '3', perTaster: '', seats: '24', asks: 'rank', above: '80', ml: '40' },
        ...more,
      }),
    )
  const { played, tasters, fewest, perTasterMl } = figures({})
  // test/reference/data/order-panels.json: 0.64635 of R's 20 000 panels; four errors of a thousand
  expect(Math.abs((played?.alone ?? 0) - 0.64635)).toBeLessThan(4 * Math.sqrt((0.646 * 0.354) / 1000))
  expect(played).toMatchObject({ seats: 24, panels: 1000, misled: 0 })
  // R: for (n in 1:60) { c <- qbinom(.05/3/2, n, .5, lower.tail = FALSE) + 1; pw <- pbinom(c - 1, n, .8, lower.tail = FALSE);
  //    if (pw >= .8) { print(n); break } } and the same at .65 with 15 pairs
  expect(tasters).toBe(28)
  expect(figures({ above: '65', cups: '6' }).tasters).toBe(158)
  expect({ fewest, perTasterMl }).toEqual({ fewest: 7, perTasterMl: 120 })
  expect(figures({ cups: '2' })).toMatchObject({ played: null, tasters: null, fewest: null })
  expect(figures({ above: '', seats: '' })).toMatchObject({ played: null, tasters: null, fewest: 7 })
})
