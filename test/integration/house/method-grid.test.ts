/** The recipe page's table of methods and cost levels, and how each trial was liked blind. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { decide } from '@/lib/tasks/result/decide'
import { findBlindLiking, type BlindLiking } from '@/lib/tasks/result/blind-liking'
import { readResult } from '@/lib/tasks/result/read-result'
import { nameCostLevel } from '@/lib/tasks/recipe/keep-cost-level'
import { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'
import { fromR, scoreAsInR } from '@/test/support/panel-of-eight'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const grid = async () => {
  const found = await readRecipe(cafe.world, cafe.owner, cafe.recipeId)
  if (!found) throw new Error('the recipe is not there')
  return found.grid
}

async function opened(cups: readonly string[], title = 'Kiosk question'): Promise<string> {
  const { world, owner, recipeId } = cafe
  const planned = await planPanel(
    world,
    owner,
    recipeId,
    cafe.plan({ title, cups: [...cups], seatCount: 9, aspects: [] }),
  )
  if (!planned.ok) throw new Error(planned.reason)
  expect(await openPanel(world, owner, planned.value)).toMatchObject({ ok: true })
  return planned.value
}

async function closed(cups: readonly string[]): Promise<string> {
  const id = await opened(cups)
  await scoreAsInR(cafe, id)
  await closePanel(cafe.world, cafe.owner, id)
  cafe.pass(86_400_000)
  return id
}

const likingOf = async (trialId: string): Promise<BlindLiking | undefined> =>
  (await findBlindLiking(cafe.world, cafe.owner.cafeId, [trialId])).get(trialId)

// R 4.2.2: t.test(scores)$conf.int of each cup of test/reference/data/panel-of-eight.json
const intervals = [
  [4.08296391461, 6.16703608539],
  [6.10625604088, 7.89374395912],
  [4.67843863677, 6.82156136323],
] as const

test('liking is what the closed panel keeps: R’s means and intervals, and the same as its result page', async () => {
  const three = cafe.trialIds.slice(0, 3)
  const panelId = await closed(three)
  const liking = await findBlindLiking(cafe.world, cafe.owner.cafeId, cafe.trialIds)
  const result = await readResult(cafe.world, cafe.owner, panelId)
  for (const [place, id] of three.entries()) {
    const letter = 'ABC'.charAt(place)
    const own = result?.liking?.cups.find(({ cup }) => cup === letter)
    const [low, high] = intervals[place] ?? []
    expect(liking.get(id)).toMatchObject({ said: 'liked', mean: own?.estimate, interval: own?.robust.interval })
    expect(liking.get(id)).toMatchObject({
      mean: expect.closeTo(fromR.means[letter] ?? NaN, 6),
      interval: [expect.closeTo(low ?? NaN, 6), expect.closeTo(high ?? NaN, 6)],
      tasters: 8,
      panel: { id: panelId, title: 'Kiosk question' },
    })
  }
  expect(liking.get(cafe.trialIds[3] ?? '')).toEqual({ said: 'not-tasted' })
})

test('an open panel’s trial says nothing of its liking, though it was liked before', async () => {
  const three = cafe.trialIds.slice(0, 3)
  await closed(three)
  const open = await opened(three.slice(1), 'Once more')
  expect(await likingOf(three[0] ?? '')).toMatchObject({ said: 'liked' })
  expect(await likingOf(three[1] ?? '')).toEqual({ said: 'poured-now' })
  await scoreAsInR(cafe, open)
  expect(await likingOf(three[1] ?? '')).toEqual({ said: 'poured-now' })
  await closePanel(cafe.world, cafe.owner, open)
  expect(await likingOf(three[1] ?? '')).toMatchObject({ said: 'liked', panel: { id: open } })
})

test('where a panel asked something else, or keeps no readable number, none is shown', async () => {
  const three = cafe.trialIds.slice(0, 3)
  const first = three[0] ?? ''
  const id = await closed(three)
  const { closingAnswer } = await cafe.db.panel.findUniqueOrThrow({ where: { id } })
  const keeps = (more: object) => cafe.db.panel.update({ where: { id }, data: more })
  await keeps({ closingAnswer: 'not what it was' })
  expect(await likingOf(first)).toMatchObject({ said: 'no-number', why: 'not-kept', panel: { id } })
  const { liking, ...rest } = JSON.parse(closingAnswer ?? '') as Record<string, object>
  await keeps({ closingAnswer: JSON.stringify({ ...rest, liking: { ...liking, cups: [{ cup: 'A' }] } }) })
  expect(await likingOf(first)).toMatchObject({ said: 'no-number', why: 'not-kept' })
  await keeps({ closingAnswer: JSON.stringify({ ...rest, liking: null }) })
  expect(await likingOf(first)).toMatchObject({ said: 'no-number', why: 'not-scored' })
  await keeps({ closingAnswer, kind: 'ranking' })
  expect(await likingOf(first)).toMatchObject({ said: 'no-number', why: 'not-asked' })
  // asked how it is liked, that counts before a newer panel that asked something else
  await keeps({ kind: 'liking' })
  const later = await closed(three)
  await cafe.db.panel.update({ where: { id: later }, data: { kind: 'ranking' } })
  expect(await likingOf(first)).toMatchObject({ said: 'liked', panel: { id } })
})

test('nobody of another café reads any liking', async () => {
  const three = cafe.trialIds.slice(0, 3)
  await closed(three)
  const elsewhere = await findBlindLiking(cafe.world, cafe.stranger.cafeId, three)
  expect([...elsewhere.values()]).toEqual(three.map(() => ({ said: 'not-tasted' })))
})

test('methods down, levels across; the house recipe stands in front, else the newest', async () => {
  const { world, db, owner, recipeId, trialIds } = cafe
  const [first = '', second = '', third = '', fourth = ''] = trialIds
  expect((await grid()).levels).toEqual([{ id: null, name: 'no level named' }])
  await nameCostLevel(world, owner, recipeId, 'economy')
  await nameCostLevel(world, owner, recipeId, 'standard')
  const [economy] = await db.costLevel.findMany({ orderBy: { position: 'asc' } })
  await db.trial.update({ where: { id: third }, data: { costLevelId: economy?.id ?? '' } })
  await db.trial.update({ where: { id: fourth }, data: { method: 'drip' } })
  const laid = await grid()
  expect(laid.levels.map(({ name }) => name)).toEqual(['economy', 'standard', 'no level named'])
  const seen = (one: typeof laid) =>
    one.rows.map(({ method, cells }) => [
      method,
      ...cells.map((cell) => (cell ? [cell.lead.number, ...cell.others.map(({ number }) => number)] : null)),
    ])
  // the support's own method is none of the listed: it stands by its own name, last
  expect(seen(laid)).toEqual([
    ['Drip', null, null, [4]],
    ['immersion', [3], null, [2, 1]],
  ])
  const id = await closed([first, second])
  expect(
    await decide(world, owner, id, { kind: 'adopt', trialId: first, reason: 'Liked, and cheap enough.' }),
  ).toMatchObject({ ok: true })
  const settled = await grid()
  expect(seen(settled).at(1)).toEqual(['immersion', [3], null, [1, 2]])
  expect(settled.rows[1]?.cells[2]?.lead).toMatchObject({ isHouse: true, liking: { said: 'liked' } })
  await db.trial.update({ where: { id: fourth }, data: { archivedAt: world.now() } })
  expect(seen(await grid())).toEqual([['immersion', [3], null, [1, 2]]])
})
