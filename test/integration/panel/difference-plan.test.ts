/** Planning whether two cups can be told apart: what is typed, what keeps it from being poured, and what it comes to. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { PanelForm, withoutHidden } from '@/lib/forms/panel-form'
import { PlanFiguresForm } from '@/lib/forms/plan-figures-form'
import { readDifferenceFigures } from '@/lib/tasks/plan/difference-figures'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const plain = { aim: 'differ', asks: 'any', each: '1', share: '30' }
const sent = (odd: object = {}, more: object = {}) =>
  PanelForm.safeParse({
    ...{ title: 'Apart?', publicTitle: 'Two cold coffees', question: 'Can they?', kind: 'difference', aim: 'best' },
    ...{ cups: cafe.trialIds.slice(0, 2), seatCount: '24', sampleMl: '30', nothingSeen: 'on' },
    odd: { ...plain, ...odd },
    ...more,
  })
const slips = (read: ReturnType<typeof sent>) =>
  read.success ? [] : read.error.issues.map(({ path, message }) => `${path.join('.')}: ${message}`)
const kept = (read: ReturnType<typeof sent>) => (read.success ? read.data : null)

test('the method is proposed from the aim, and may be changed', () => {
  const asks = (odd: object) => kept(sent(odd))?.asks
  expect(asks({})).toEqual({
    kind: 'difference',
    ...{ aim: 'differ', protocol: 'triangle', property: null },
    each: 1,
    share: 30,
    mask: null,
  })
  expect(asks({ aim: 'alike', protocol: 'duo-trio' })).toMatchObject({ aim: 'alike', protocol: 'duo-trio' })
  const [, second = ''] = cafe.trialIds
  const named = kept(sent({ asks: 'named', property: 'sweeter', more: second }))
  expect(named).toMatchObject({ asks: { protocol: 'two-afc', property: 'sweeter' }, pairA: second, aim: 'better' })
  expect(named?.pairB).toBe(cafe.trialIds[0])
  // typed, then another question chosen: the word is not asked
  expect(asks({ property: 'sweeter', more: second })).toMatchObject({ protocol: 'triangle', property: null })
})

test('what keeps such a plan from being poured stands beside its field', () => {
  const [first = ''] = cafe.trialIds
  expect(slips(sent({ each: '2', aim: 'alike' }))).toEqual([
    'odd.each: To show that few can tell, one answer each: a second answer of the same person is no independent one, and would make the panel look larger than it is.',
  ])
  expect(slips(sent({ aim: 'alike', asks: 'named', property: 'sweeter', more: first }))).toEqual([
    'odd.asks: To show that few can tell, ask whether one is different. Asked which is sweeter, few right may mean that many find the other one sweeter.',
  ])
  expect(slips(sent({ asks: 'named', property: 'sweeter' }))).toEqual([
    'odd.more: Which of the two chosen cups should have more of it?',
  ])
  expect(slips(sent({ asks: 'named', more: first }))[0]).toMatch(
    /^odd\.property: What should one of the two have more of/,
  )
  expect(slips(sent({ protocol: 'two-afc' }))[0]).toMatch(/^odd\.protocol: This method asks for a property/)
  expect(slips(sent({ asks: 'named', property: 'x', more: first, protocol: 'triangle' }))[0]).toMatch(
    /^odd\.protocol: /,
  )
  expect(slips(sent({ each: '4', share: '99' }))).toEqual([
    'odd.each: From 1 to 3, please.',
    'odd.share: From 5 to 95, please.',
  ])
  expect(slips(sent({ protocol: 'tetrad', each: '3' }))[0]).toMatch(/^odd\.each: More than 9 cups/)
  expect(slips(sent({}, { cups: cafe.trialIds.slice(0, 3) }))[0]).toMatch(/^cups: This panel is of two cups/)
  expect(slips(sent({}, { odd: undefined }))).toEqual(['odd.aim: Choose what the panel is to find out.'])
})

test('a cup that can be told by eye is refused, in a draft and at opening, unless it is hidden', async () => {
  const seen = { nothingSeen: undefined, seenThrough: 'milk colour' }
  expect(slips(sent({}, seen))[0]).toMatch(/^odd\.mask: Below you say that a cup can be told by eye/)
  const hidden = kept(sent({ mask: 'black cups with lids' }, seen))
  expect(hidden?.asks).toMatchObject({ mask: 'black cups with lids' })
  if (!hidden) throw new Error('refused')
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, hidden)
  if (!planned.ok) throw new Error(planned.reason)
  const panel = await cafe.db.panel.findUniqueOrThrow({ where: { id: planned.value } })
  await cafe.db.panel.update({
    where: { id: planned.value },
    data: { design: (panel.design ?? '').replace('"black cups with lids"', 'null') },
  })
  expect(await openPanel(cafe.world, cafe.owner, planned.value)).toMatchObject({ reason: 'seen-and-not-masked' })
  await cafe.db.panel.update({ where: { id: planned.value }, data: { design: panel.design } })
  expect(await openPanel(cafe.world, cafe.owner, planned.value)).toMatchObject({ ok: true })
})

test('what other kinds hide is not read, and a slip in it stops nothing', () => {
  const form = new FormData()
  const typed = { kind: 'difference', share: 'much', 'odd.share': '30', duplicate: 'x', cups: 'a' }
  for (const [name, value] of Object.entries(typed)) form.append(name, value)
  expect([...withoutHidden(form).keys()]).toEqual(['kind', 'odd.share', 'cups'])
  form.set('kind', 'choice')
  expect([...withoutHidden(form).keys()]).toEqual(['kind', 'share', 'cups'])
})

test('tasters, chance and critical count are those of the standards and of R', () => {
  const figures = (more: object) =>
    readDifferenceFigures(
      PlanFiguresForm.parse({
        ...{ recipe: 'r', cups: '2', seats: '24', asks: 'difference', ml: '30' },
        ...{ oddAim: 'differ', oddAsks: 'any', oddEach: '1', oddShare: '30' },
        ...more,
      }),
    )
  // trade.md, ISO 4120 and ISO 10399: triangle 30 % 40, 50 % 16; duo-trio 30 % 69; 24 seats take 13
  expect(figures({})).toMatchObject({ needed: { n: 40 }, withSeats: { n: 24, critical: 13 }, cups: 3, perTasterMl: 90 })
  // test/reference/make/repeated-difference.R
  expect(figures({})?.withSeats?.power).toBeCloseTo(0.5504751325, 9)
  expect(figures({ oddShare: '50' })?.needed?.n).toBe(16)
  expect(figures({ oddProtocol: 'duo-trio' })?.needed?.n).toBe(69)
  const two = figures({ oddEach: '2' })
  expect(two).toMatchObject({ needed: { n: 24 }, withSeats: { answers: 48, critical: 22 }, cups: 6, perTasterMl: 180 })
  expect(two?.withSeats?.power).toBeCloseTo(0.8434277493, 9)
  // what would be refused has no figures, and says why
  expect(figures({ oddAim: 'alike', oddAsks: 'named', seats: '60' })).toBeNull()
  expect(figures({ oddAsks: 'named', oddEach: '2', seats: '60' })).toBeNull()
  // R: pbinom(qbinom(.05, 60, 1/3 + 2/3 * .3) - 1, 60, 1/3)
  const few = figures({ oddAim: 'alike', seats: '60' })
  expect(few).toMatchObject({ withSeats: { critical: 25 }, byLuck: null })
  expect(few?.withSeats?.power).toBeCloseTo(0.9319848216, 9)
  expect(figures({ oddShare: '' })).toBeNull()
  // 24 seats, 1.5 pourings of either: 36 portions of 30 ml and 15 %
  expect(figures({})?.perCupMl).toBe(1242)
})
