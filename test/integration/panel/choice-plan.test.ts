/** The plan of two cups: what the form makes of what is typed, and what the plan comes to. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { PanelForm } from '@/lib/forms/panel-form'
import { PlanFiguresForm } from '@/lib/forms/plan-figures-form'
import { readChoiceFigures } from '@/lib/tasks/plan/choice-figures'
import { changePlan } from '@/lib/tasks/plan/change-plan'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

/** As the form sends it: what is hidden is sent all the same. */
const sent = (more: object = {}) => ({
  ...{ title: 'Which one', publicTitle: 'Two cold coffees', question: 'Which one?', kind: 'choice', share: '70' },
  ...{ aim: 'best', primaryKind: 'against-house', smallestDifference: '1' },
  ...{ seatCount: '24', sampleMl: '40', nothingSeen: 'on' },
  cups: cafe.trialIds.slice(0, 2),
  ...more,
})
const messages = (typed: object) =>
  PanelForm.safeParse(typed).error?.issues.map(({ path, message }) => `${path.join('.')}: ${message}`)

test('what only a scale has is left out of a plan of two cups, though its hidden fields are sent', async () => {
  const typed = PanelForm.parse(sent({ mayHaveNone: 'on', duplicate: cafe.trialIds[0], cupsPerTaster: '2' }))
  const [pairA, pairB] = cafe.trialIds
  expect(typed).toMatchObject({
    asks: { kind: 'choice', none: true, share: 70 },
    aim: 'better',
    primaryKind: 'one-pair',
  })
  expect(typed).toMatchObject({
    pairA,
    pairB,
    duplicate: null,
    aspects: [],
    cupsPerTaster: null,
    smallestDifference: 0,
  })
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, typed)
  const panelId = planned.ok ? planned.value : ''
  const panel = await cafe.db.panel.findUniqueOrThrow({ where: { id: panelId }, include: { attributes: true } })
  expect(panel).toMatchObject({ kind: 'choice', design: '{"none":true,"share":70}' })
  expect(panel.attributes).toMatchObject([{ position: 0, about: 'set', kind: 'choose', options: '{"none":true}' }])
  // and back to a scale
  const liking = PanelForm.parse(sent({ kind: 'liking' }))
  expect(await changePlan(cafe.world, cafe.owner, panelId, liking, null)).toMatchObject({ ok: true })
  expect((await readPanel(cafe.world, cafe.owner, panelId))?.plan.asks).toBeUndefined()
  const now = await cafe.db.panelAttribute.findMany({ where: { panelId } })
  expect(now).toMatchObject([{ about: 'serving', kind: 'liking-9' }])
})

test('a form that says nothing of a kind is of liking, as it was before there were others', () => {
  const { kind: _, share: __, ...before } = sent()
  expect(PanelForm.parse(before).asks).toBeUndefined()
})

test('what keeps such a plan from being poured stands beside its field', () => {
  expect(messages(sent({ cups: cafe.trialIds.slice(0, 3) }))).toEqual([
    'cups: This panel is of two cups. Take the others out, or let each cup be scored.',
  ])
  expect(messages(sent({ cups: cafe.trialIds.slice(0, 1) }))).toEqual([
    'cups: A panel compares at least 2 cups. Choose one more.',
  ])
  expect(messages(sent({ share: undefined }))).toEqual(['share: What share is it to find?'])
  expect(messages(sent({ share: '50' }))).toEqual(['share: From 55 to 95, please.'])
})

test('tasters, chance and critical count are those of R', () => {
  const typed = (more: object) =>
    PlanFiguresForm.parse({
      recipe: 'r',
      cups: '2',
      perTaster: '',
      seats: '24',
      asks: 'choice',
      share: '65',
      ml: '40',
      ...more,
    })
  const { tasters, withSeats, perTasterMl } = readChoiceFigures(typed({}))
  // R: c <- qbinom(.025, 24, .5, lower.tail = FALSE) + 1; pbinom(c - 1, 24, .65, lower.tail = FALSE); pbinom(24 - c, 24, .65)
  expect(withSeats).toMatchObject({ seats: 24, critical: 18 })
  expect(withSeats?.found).toBeCloseTo(0.21055184598416, 12)
  expect(withSeats?.wrong).toBeCloseTo(0.000075382708271618, 14)
  // trade.md: two-sided preference 65:35 90, 70:30 49, 75:25 30
  expect([tasters, ...['70', '75'].map((share) => readChoiceFigures(typed({ share })).tasters)]).toEqual([90, 49, 30])
  expect(perTasterMl).toBe(80)
  expect(readChoiceFigures(typed({ seats: '5' })).withSeats).toEqual({ seats: 5, found: 0, wrong: 0, critical: null })
  expect(readChoiceFigures(typed({ seats: '', share: '' }))).toMatchObject({ tasters: null, withSeats: null })
})
