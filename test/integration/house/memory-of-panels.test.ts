/**
 * Panels that compared the same two trials, against R.
 * Made   test/reference/make/memory-of-panels.R: t.test(paired = TRUE), metafor rma(REML, test = "adhoc"); tolerance 1e-6
 */
import { readFileSync } from 'node:fs'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readMemory } from '@/lib/tasks/result/read-memory'
import { cafeForTest, type TestCafe } from '../../support/cafe'
import { scoreBySeats } from '../../support/panel-of-eight'

interface Together {
  readonly difference: number
  readonly interval: readonly [number, number]
  readonly next?: readonly [number, number]
}
const fromR = JSON.parse(readFileSync('test/reference/data/memory-of-panels.json', 'utf8')) as {
  readonly panels: readonly {
    readonly A: readonly number[]
    readonly B: readonly number[]
    readonly difference: number
    readonly low: number
    readonly high: number
  }[]
  readonly two: Together
  readonly three: Together
}

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

async function held(
  title: string,
  cups: readonly string[],
  scores: Partial<Record<'A' | 'B' | 'C', readonly number[]>>,
) {
  const { world, owner, recipeId } = cafe
  const planned = await planPanel(
    world,
    owner,
    recipeId,
    cafe.plan({ title, cups: [...cups], seatCount: 8, aspects: [] }),
  )
  if (!planned.ok) throw new Error(planned.reason)
  expect(await openPanel(world, owner, planned.value)).toMatchObject({ ok: true })
  if (scores.A) await scoreBySeats(cafe, planned.value, scores)
  await closePanel(world, owner, planned.value)
  cafe.pass(86_400_000)
  return planned.value
}

const near = (ours: readonly (number | null | undefined)[], theirs: readonly number[]) => {
  expect(ours).toHaveLength(theirs.length)
  theirs.forEach((one, i) => expect(Math.abs((ours[i] ?? NaN) - one)).toBeLessThan(1e-6))
}

test('each panel’s own difference, and all of them together, are R’s', async () => {
  const { world, owner } = cafe
  const two = cafe.trialIds.slice(0, 2)
  const ids: string[] = []
  for (const [i, { A, B }] of fromR.panels.entries()) {
    ids.push(await held(`Panel ${i + 1}`, two, { A, B }))
    const [pair, ...more] = (await readMemory(world, owner, ids[0] ?? '')) ?? []
    expect(more).toEqual([])
    if (i === 0) {
      expect(pair).toBeUndefined()
      continue
    }
    expect(pair?.held.map(({ id }) => id)).toEqual(ids.toReversed())
    expect(pair?.tries).toBe(i + 1)
    const [first] = pair?.held.toReversed() ?? []
    const [own] = fromR.panels
    near([first?.difference, ...(first?.interval ?? [])], [own?.difference ?? NaN, own?.low ?? NaN, own?.high ?? NaN])
    const all = i === 1 ? fromR.two : fromR.three
    near([pair?.together?.difference, ...(pair?.together?.interval ?? [])], [all.difference, ...all.interval])
    if (all.next) near(pair?.together?.next ?? [], all.next)
    else expect(pair?.together?.next).toBeNull()
  }
})

test('a panel of which no interval can be had counts as a try, and changes nothing that is shown', async () => {
  const { world, owner, trialIds } = cafe
  const [panel] = fromR.panels
  const first = await held('Scored', trialIds.slice(0, 2), { A: panel?.A ?? [], B: panel?.B ?? [] })
  await held('Nobody came', trialIds.slice(0, 2), {})
  const [pair] = (await readMemory(world, owner, first)) ?? []
  expect(pair).toMatchObject({ tries: 2, together: null })
  expect(pair?.held.map(({ title }) => title)).toEqual(['Scored'])
})

test('trials that were never poured together have no memory, and another café reads none', async () => {
  const { world, owner, stranger, trialIds } = cafe
  const [panel] = fromR.panels
  const scores = { A: panel?.A ?? [], B: panel?.B ?? [], C: panel?.A ?? [] }
  const first = await held('A and B', trialIds.slice(0, 2), scores)
  await held('B and C', trialIds.slice(1, 3), scores)
  expect(await readMemory(world, owner, first)).toEqual([])
  await held('A and B once more', trialIds.slice(0, 2), scores)
  expect(await readMemory(world, owner, first)).toHaveLength(1)
  expect(await readMemory(world, stranger, first)).toBeNull()
})
