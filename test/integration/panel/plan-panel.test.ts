import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { changePlan } from '@/lib/tasks/plan/change-plan'
import { copyPanel } from '@/lib/tasks/plan/copy-panel'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { discardDraft } from '@/lib/tasks/plan/discard-draft'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readPanels } from '@/lib/tasks/plan/read-panels'
import { readPlanBasis } from '@/lib/tasks/plan/read-plan-basis'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const acts = async () => (await cafe.db.auditRow.findMany({ orderBy: { at: 'asc' } })).map((row) => row.act)

async function planned(more: Parameters<TestCafe['plan']>[0] = {}): Promise<string> {
  const answer = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan(more))
  if (!answer.ok) throw new Error(answer.reason)
  return answer.value
}

test('a plan keeps its cups in order, overall liking first, and its line in the diary', async () => {
  const id = await planned()
  const panel = await cafe.db.panel.findUniqueOrThrow({
    where: { id },
    include: { cups: { orderBy: { place: 'asc' } }, attributes: { orderBy: { position: 'asc' } }, seats: true },
  })
  expect(panel.stage).toBe('draft')
  expect(panel.cups.map((cup) => cup.trialId)).toEqual(cafe.trialIds.slice(0, 3))
  expect(panel.attributes.map((one) => one.name)).toEqual(['Overall liking', 'Sweetness'])
  expect(panel.seats).toEqual([])
  expect(panel.orderSeed).toBeNull()
  expect(await acts()).toEqual(['panel-planned'])
})

describe('what cannot be planned leaves nothing behind', () => {
  const refused = async (more: Parameters<TestCafe['plan']>[0]) => {
    const answer = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan(more))
    expect(await cafe.db.panel.count()).toBe(0)
    expect(await acts()).toEqual([])
    return answer.ok ? 'planned' : `${answer.detail?.['field']}: ${answer.reason}`
  }
  test('one cup', async () => expect(await refused({ cups: cafe.trialIds.slice(0, 1) })).toBe('cups: too-few-cups'))
  test('the same trial twice', async () => {
    const [a = '', b = ''] = cafe.trialIds
    expect(await refused({ cups: [a, b, a] })).toBe('cups: same-trial-twice')
  })
  test('a trial of nowhere', async () => {
    expect(await refused({ cups: [...cafe.trialIds.slice(0, 2), 'elsewhere'] })).toBe('cups: trial-gone')
  })
  test('a house recipe that is not there', async () => {
    expect(await refused({ aim: 'better', primaryKind: 'against-house' })).toBe('primaryKind: no-house-cup')
  })
  test('a public title that names a trial', async () => {
    expect(await refused({ publicTitle: 'Is it VELVETINE-2?' })).toBe('publicTitle: title-tells')
  })
  test('a recipe of another café', async () => {
    const answer = await planPanel(cafe.world, cafe.stranger, cafe.recipeId, cafe.plan())
    expect(answer).toMatchObject({ ok: false, reason: 'recipe-gone' })
  })
})

test('the house recipe is the newest adoption, and is offered first', async () => {
  const [first = '', second = ''] = cafe.trialIds
  const adopt = { cafeId: cafe.owner.cafeId, recipeId: cafe.recipeId, kind: 'adopt', reason: 'liked' }
  await cafe.db.decision.create({ data: { ...adopt, id: 'd1', trialId: second, version: 1, at: new Date(1) } })
  await cafe.db.decision.create({ data: { ...adopt, id: 'd2', trialId: first, version: 2, at: new Date(2) } })
  const keep = { ...adopt, kind: 'keep', id: 'd3', trialId: second, at: new Date(3) }
  await cafe.db.decision.create({ data: keep })
  const basis = await readPlanBasis(cafe.world, cafe.owner, cafe.recipeId)
  expect(basis?.trials[0]).toMatchObject({ id: first, isHouse: true })
  const id = await planned({ aim: 'better', primaryKind: 'against-house' })
  const panel = await readPanel(cafe.world, cafe.owner, id)
  expect(panel?.cups.map((cup) => cup.isHouse)).toEqual([true, false, false])
})

test('a draft is rewritten whole', async () => {
  const id = await planned()
  const [a = '', b = '', c = ''] = cafe.trialIds
  const typed = cafe.plan({ cups: [a, b, c], duplicate: a, aspects: [], seatCount: 9, question: 'Another?' })
  expect(await changePlan(cafe.world, cafe.owner, id, typed, null)).toEqual({ ok: true, value: null })
  const panel = await readPanel(cafe.world, cafe.owner, id)
  expect(panel?.cups.map((cup) => [cup.trialId, cup.isDuplicate])).toEqual([
    [a, false],
    [b, false],
    [c, false],
    [a, true],
  ])
  const confounded = cafe.plan({ cups: [a, b], duplicate: a })
  expect(await changePlan(cafe.world, cafe.owner, id, confounded, null)).toMatchObject({ reason: 'duplicate-of-two' })
  expect(panel?.plan.aspects).toEqual([])
  expect(panel?.plan.seatCount).toBe(9)
  expect(await acts()).toEqual(['panel-planned', 'plan-changed'])
})

test('an open panel keeps its plan and cannot be discarded', async () => {
  const id = await planned()
  await openPanel(cafe.world, cafe.owner, id)
  const changed = await changePlan(cafe.world, cafe.owner, id, cafe.plan({ question: 'Too late?' }), null)
  expect(changed).toMatchObject({ ok: false, reason: 'not-a-draft' })
  expect(await discardDraft(cafe.world, cafe.owner, id)).toMatchObject({ ok: false, reason: 'not-a-draft' })
  expect((await readPanel(cafe.world, cafe.owner, id))?.question).toBe('Is one liked better?')
})

test('a draft goes with all it had, and the diary keeps that it was there', async () => {
  const id = await planned()
  expect(await discardDraft(cafe.world, cafe.stranger, id)).toMatchObject({ ok: false })
  expect(await discardDraft(cafe.world, cafe.owner, id)).toEqual({ ok: true, value: null })
  expect(await cafe.db.panel.count()).toBe(0)
  expect(await cafe.db.cup.count()).toBe(0)
  expect(await cafe.db.panelAttribute.count()).toBe(0)
  expect(await acts()).toEqual(['panel-planned', 'draft-discarded'])
})

test('testing again copies the plan of a panel that is over, and deals nothing yet', async () => {
  const [a = ''] = cafe.trialIds
  const id = await planned({ duplicate: a, seenThrough: 'colour', nothingSeen: false })
  expect(await copyPanel(cafe.world, cafe.owner, id)).toMatchObject({ ok: false, reason: 'not-over' })
  await openPanel(cafe.world, cafe.owner, id)
  expect(await copyPanel(cafe.world, cafe.owner, id)).toMatchObject({ ok: false, reason: 'not-over' })
  await closePanel(cafe.world, cafe.owner, id)
  const copied = await copyPanel(cafe.world, cafe.owner, id)
  if (!copied.ok) throw new Error(copied.reason)
  const [before, after] = [
    await readPanel(cafe.world, cafe.owner, id),
    await readPanel(cafe.world, cafe.owner, copied.value),
  ]
  expect(after?.plan).toEqual(before?.plan)
  expect(after).toMatchObject({ stage: 'draft', copiedFromId: id, question: before?.question })
  expect(after?.plan.seenThrough).toBe('colour')
  const row = await cafe.db.panel.findUniqueOrThrow({ where: { id: copied.value }, include: { cups: true } })
  expect(row.orderSeed).toBeNull()
  expect(row.cups.every((cup) => cup.jugLetter === null && cup.design === null)).toBe(true)
  const first = await cafe.db.panel.findUniqueOrThrow({ where: { id } })
  expect(row.joinToken).not.toBe(first.joinToken)
})

test('testing again twice, at once or later, makes one draft', async () => {
  const id = await planned()
  await openPanel(cafe.world, cafe.owner, id)
  await closePanel(cafe.world, cafe.owner, id)
  const twice = await Promise.all([copyPanel(cafe.world, cafe.owner, id), copyPanel(cafe.world, cafe.secondOwner, id)])
  expect(await copyPanel(cafe.world, cafe.owner, id)).toEqual(twice[0])
  expect(twice[1]).toEqual(twice[0])
  expect(await cafe.db.panel.count({ where: { copiedFromId: id } })).toBe(1)
  expect((await acts()).filter((act) => act === 'panel-copied')).toHaveLength(1)

  // Once it is opened, testing again is another panel.
  const [draft] = twice
  if (!draft.ok) throw new Error(draft.reason)
  await cafe.db.panel.update({ where: { id: draft.value }, data: { nothingSeen: true } })
  expect(await openPanel(cafe.world, cafe.owner, draft.value)).toMatchObject({ ok: true })
  expect(await copyPanel(cafe.world, cafe.owner, id)).not.toEqual(draft)
})

test('the title of a panel that is tested again keeps the form’s own limit', async () => {
  const title = 'x'.repeat(80)
  const id = await planned({ title })
  await openPanel(cafe.world, cafe.owner, id)
  await closePanel(cafe.world, cafe.owner, id)
  const copied = await copyPanel(cafe.world, cafe.owner, id)
  const draft = await readPanel(cafe.world, cafe.owner, copied.ok ? copied.value : '')
  expect(draft?.title).toBe(`${'x'.repeat(72)}…, again`)
})

test('that nothing can be seen was said of the cups of that day: whoever tests again looks again', async () => {
  const id = await planned({ nothingSeen: true })
  await openPanel(cafe.world, cafe.owner, id)
  await closePanel(cafe.world, cafe.owner, id)
  const copied = await copyPanel(cafe.world, cafe.owner, id)
  const draft = await readPanel(cafe.world, cafe.owner, copied.ok ? copied.value : '')
  expect(draft?.plan.nothingSeen).toBe(false)
  expect(draft?.problems).toEqual(['seen-not-said'])
})

describe('cups that tell, or tell nothing apart', () => {
  /** A further trial with the lines of another, as "Make another" stores it. */
  const twinOf = async (trialId: string, name: string) => {
    const { cafeId } = cafe.owner
    const lines = await cafe.db.trialLine.findMany({ where: { trialId } })
    await cafe.db.trial.create({
      data: {
        ...{ id: `twin of ${trialId}`, cafeId, recipeId: cafe.recipeId, number: 90, name, method: 'immersion' },
        createdAt: cafe.world.now(),
      },
    })
    await cafe.db.trialLine.createMany({
      data: lines.map((line) => ({ ...line, id: `twin of ${line.id}`, trialId: `twin of ${trialId}` })),
    })
    return `twin of ${trialId}`
  }
  const answerTo = async (more: Parameters<TestCafe['plan']>[0]) =>
    planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan(more))

  test('two trials that are one drink are named before they are poured twice', async () => {
    const [a = '', b = ''] = cafe.trialIds
    const twin = await twinOf(b, 'Marigold')
    expect(await answerTo({ cups: [a, b, twin] })).toEqual({
      ok: false,
      reason: 'same-drink',
      detail: { field: 'cups', name: 'Velvetine 2', twin: 'Marigold' },
    })
    expect(await cafe.db.panel.count()).toBe(0)
    // One gram less of a line is another drink.
    const [line] = await cafe.db.trialLine.findMany({ where: { trialId: twin } })
    await cafe.db.trialLine.update({ where: { id: line?.id ?? '' }, data: { targetMg: 59_000 } })
    expect(await answerTo({ cups: [a, b, twin] })).toMatchObject({ ok: true })
  })

  test('trials that became one drink after they were planned keep the panel shut, and the page says so', async () => {
    const [a = '', b = ''] = cafe.trialIds
    const twin = await twinOf(b, 'Marigold')
    const id = await planned({ cups: [a, twin] })
    await cafe.db.trialLine.deleteMany({ where: { trialId: twin } })
    const lines = await cafe.db.trialLine.findMany({ where: { trialId: a } })
    await cafe.db.trialLine.createMany({
      data: lines.map((line) => ({ ...line, id: `again ${line.id}`, trialId: twin })),
    })
    expect(await openPanel(cafe.world, cafe.owner, id)).toMatchObject({
      reason: 'same-drink',
      detail: { name: 'Velvetine 1', twin: 'Marigold' },
    })
    expect((await readPanel(cafe.world, cafe.owner, id))?.looks).toEqual([
      { problem: 'same-drink', name: 'Velvetine 1', twin: 'Marigold' },
    ])
  })

  test('a public title that names what differs between the cups is refused by name', async () => {
    // The milk is in the first cup alone; the beans are in all three, as much in each.
    expect(await answerTo({ publicTitle: 'Milk or no milk?' })).toEqual({
      ok: false,
      reason: 'title-names-ingredient',
      detail: { field: 'publicTitle', ingredient: 'Zephyrine milk' },
    })
    expect(await answerTo({ publicTitle: 'Three zephyrine drinks' })).toMatchObject({
      detail: { ingredient: 'Zephyrine milk' },
    })
    expect(await answerTo({ publicTitle: 'Beans, three ways' })).toMatchObject({ ok: true })
    const [, , c = '', d = ''] = cafe.trialIds
    // Of the last two, the milk is in neither, and the sugar is inside a syrup.
    expect(await answerTo({ cups: [c, d], publicTitle: 'Milk or no milk?' })).toMatchObject({ ok: true })
    expect(await answerTo({ cups: [c, d], publicTitle: 'How much sugar?' })).toMatchObject({
      detail: { ingredient: 'Quillberry sugar' },
    })
  })
})

test('a panel opens once somebody has said what can be seen, or that nothing can', async () => {
  const id = await planned({ nothingSeen: false })
  expect((await readPanel(cafe.world, cafe.owner, id))?.problems).toEqual(['seen-not-said'])
  expect(await openPanel(cafe.world, cafe.owner, id)).toMatchObject({ ok: false, reason: 'seen-not-said' })
  expect((await readPanel(cafe.world, cafe.owner, id))?.stage).toBe('draft')
  for (const said of [{ nothingSeen: true }, { nothingSeen: false, seenThrough: 'milk colour' }]) {
    expect(await openPanel(cafe.world, cafe.owner, await planned(said))).toMatchObject({ ok: true })
  }
})

test('a plan keeps its aim, and one of before there was one is read by what it compared', async () => {
  const [a = '', b = ''] = cafe.trialIds
  const pair = { primaryKind: 'one-pair', pairA: a, pairB: b } as const
  const id = await planned({ aim: 'as-good', ...pair, notWorseMargin: 5, smallestDifference: 5 })
  const read = async () => (await readPanel(cafe.world, cafe.owner, id))?.plan
  expect(await read()).toMatchObject({ aim: 'as-good', pair: [a, b], notWorseMargin: 5 })
  await cafe.db.panel.update({ where: { id }, data: { aim: null, notWorseMargin: null } })
  expect((await read())?.aim).toBe('better')
  await cafe.db.panel.update({ where: { id }, data: { primaryKind: 'all-pairs' } })
  expect((await read())?.aim).toBe('best')
})

test('a stranger sees no panel of this café', async () => {
  const id = await planned()
  expect(await readPanel(cafe.world, cafe.stranger, id)).toBeNull()
  expect(await readPanels(cafe.world, cafe.stranger, false)).toEqual([])
  expect(await readPlanBasis(cafe.world, cafe.stranger, cafe.recipeId)).toBeNull()
})

test('who may only pour is told of open panels alone, the urgent first for the rest', async () => {
  const draft = await planned()
  const open = await planned()
  await openPanel(cafe.world, cafe.owner, open)
  expect((await readPanels(cafe.world, cafe.pourer, true)).map((panel) => panel.id)).toEqual([open])
  expect((await readPanels(cafe.world, cafe.owner, false)).map((panel) => panel.id)).toEqual([open, draft])
})

test('a long history never crowds out what is open or planned', async () => {
  const { cafeId } = cafe.owner
  const at = cafe.world.now()
  await cafe.db.panel.createMany({
    data: Array.from({ length: 250 }, (_, n) => ({
      ...{ id: `old-${n}`, cafeId, recipeId: cafe.recipeId, title: 'Old', publicTitle: 'Old', question: '?' },
      ...{
        stage: 'decided',
        primaryKind: 'all-pairs',
        seatCount: 1,
        joinToken: `old-${n}`,
        createdAt: at,
        closedAt: at,
      },
    })),
  })
  const draft = await planned()
  const open = await planned()
  await openPanel(cafe.world, cafe.owner, open)
  const panels = await readPanels(cafe.world, cafe.owner, false)
  expect(panels.slice(0, 2).map((panel) => panel.id)).toEqual([open, draft])
  expect(panels).toHaveLength(102)
})
