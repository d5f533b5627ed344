/**
 * What is asked every second while a panel runs must not grow with the panels of other days: SQLite's own plan of every
 * statement is read, in a database with sixty panels before this one.
 */
import { afterAll, beforeAll, expect, test } from 'vitest'
import { readDiary } from '@/lib/tasks/house/read-diary'
import { readDiaryFolds } from '@/lib/tasks/house/read-diary-folds'
import { readHome } from '@/lib/tasks/house/read-home'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readPanels } from '@/lib/tasks/plan/read-panels'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { readRecipe, readRecipes } from '@/lib/tasks/recipe/read-recipe'
import { readResult } from '@/lib/tasks/result/read-result'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { storeScore } from '@/lib/tasks/taste/store-score'
import { takeSeat } from '@/lib/tasks/taste/take-seat'
import { openPanelForTest, type OpenPanel } from '@/test/support/open-panel'
import { listenTo, type Listening } from '@/test/support/query-plans'

let panel: OpenPanel
let listening: Listening
let browser: string

beforeAll(async () => {
  panel = await openPanelForTest()
  browser = panel.world.token()
  await takeSeat(panel.world, { kind: 'join', token: panel.joinToken }, { browser, userId: null, name: 'Ana' })
  await layEarlierPanels(panel, 60)
  await layDiary(panel, 900)
  listening = listenTo(panel.url.replace(/^file:/, ''))
})
afterAll(async () => {
  await listening.close()
  await panel.close()
})

const earlier = (number: number) => `earlier-${number}`

async function layEarlierPanels({ db, cafeId, panelId }: OpenPanel, howMany: number): Promise<void> {
  const { recipeId } = await db.panel.findUniqueOrThrow({ where: { id: panelId } })
  const trials = await db.trial.findMany({ where: { recipeId }, select: { id: true } })
  const createdAt = new Date('2025-06-01T08:00:00Z')
  for (let number = 0; number < howMany; number++) {
    const id = earlier(number)
    const words = { title: id, publicTitle: id, question: id, primaryKind: 'all-pairs', seatCount: 20 }
    const days = { createdAt, openedAt: createdAt, closedAt: createdAt }
    await db.panel.create({
      data: { id, cafeId, recipeId, joinToken: id, orderSeed: 1, stage: 'closed', ...words, ...days },
    })
    await db.panelAttribute.create({
      data: { id, cafeId, panelId: id, position: 0, name: 'Overall liking', kind: 'liking-9' },
    })
    const cups = trials.map((trial, place) => ({
      id: `${id}-${place}`,
      cafeId,
      panelId: id,
      trialId: trial.id,
      place,
      design: place + 1,
    }))
    await db.cup.createMany({ data: cups })
    const seats = Array.from({ length: 12 }, (_, seat) => ({
      id: `${id}-seat-${seat}`,
      cafeId,
      panelId: id,
      number: seat + 1,
      cardToken: `${id}-card-${seat}`,
      takenAt: createdAt,
      createdAt,
    }))
    await db.seat.createMany({ data: seats })
    const said = { consentAt: createdAt, cautionsAt: createdAt, declaredAt: createdAt }
    const tasters = seats.map((seat) => ({ id: seat.id, cafeId, panelId: id, seatId: seat.id, name: seat.id, ...said }))
    await db.taster.createMany({ data: tasters })
    const servings = seats.flatMap((seat) =>
      cups.map((cup, place) => ({
        id: `${seat.id}-${place}`,
        cafeId,
        panelId: id,
        seatId: seat.id,
        cupId: cup.id,
        position: place + 1,
        code: String(101 + place),
        lockedAt: createdAt,
      })),
    )
    await db.serving.createMany({ data: servings })
    await db.score.createMany({
      data: servings.map((serving) => ({
        id: serving.id,
        cafeId,
        servingId: serving.id,
        attributeId: id,
        value: 5,
        revision: 1,
        key: serving.id,
        source: 'phone',
        at: createdAt,
      })),
    })
  }
}

/** Steps of many tasters at many panels. */
async function layDiary({ db, cafeId }: OpenPanel, howMany: number): Promise<void> {
  const servings = await db.serving.findMany({ select: { id: true }, take: howMany })
  const at = new Date('2026-01-05T18:00:00Z')
  await db.auditRow.createMany({
    data: servings.map(({ id }) => {
      const subject = { subjectKind: 'serving', subjectId: id }
      return { id: `line of ${id}`, cafeId, at, actorKind: 'taster', act: 'score-stored', ...subject }
    }),
  })
}

async function readTheRecipe() {
  const { recipeId } = await panel.db.panel.findUniqueOrThrow({ where: { id: panel.panelId } })
  const reader = { ...panel, cafe: { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' } }
  return readRecipe(listening.world, reader, recipeId)
}

const LEFT_BY_PANELS = ['Score', 'LateScore', 'ReplacedAnswer', 'Serving', 'Seat', 'Taster', 'ListOpening', 'AuditRow']

/** Steps that go through a whole table of what panels leave behind, or gather one before they look into it. */
async function wholeTables(act: () => Promise<unknown>): Promise<string[]> {
  const explained = await listening.explain(act)
  expect(explained.length).toBeGreaterThan(0)
  return explained.flatMap(({ sql, steps }) =>
    steps
      .filter((step) => {
        const [, scanned] = /^SCAN (\S+)/.exec(step) ?? []
        // By the café alone a table is gone through as well; the diary is, in its order, and stops after a page.
        const whole = /^SEARCH (\w+) USING .*\(cafeId=\?\)$/.exec(step)?.[1]
        return (
          (whole !== 'AuditRow' && LEFT_BY_PANELS.includes(whole ?? '')) ||
          step.includes('AUTOMATIC') ||
          LEFT_BY_PANELS.includes(scanned ?? '') ||
          scanned?.includes('aggr')
        )
      })
      .map((step) => `${step}: ${sql.slice(0, 300)}`),
  )
}

test.each<[string, () => Promise<unknown>]>([
  ['the watch of a running panel', () => readProgress(listening.world, panel, panel.panelId)],
  ['what a taster’s phone asks for', () => readSeatState(listening.world, browser)],
  ['the page of a running panel', () => readPanel(listening.world, panel, panel.panelId)],
  ['the result of a closed panel', () => readResult(listening.world, panel, earlier(7))],
  ['the list of panels', () => readPanels(listening.world, panel, false)],
  ['the list of recipes', () => readRecipes(listening.world, panel)],
  ['the page of a recipe', readTheRecipe],
  ['the diary', () => readDiaryFolds(listening.world, panel, null)],
  [
    'home',
    () =>
      readHome(listening.world, { ...panel, cafe: { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' } }, true),
  ],
])('%s reads no table of scores, servings or seats from end to end', async (_, act) => {
  expect(await wholeTables(act)).toEqual([])
})

test('the page of a recipe asks no question for each of its panels', async () => {
  expect((await readTheRecipe())?.panelCount).toBeGreaterThan(60)
  const asked = await listening.count(readTheRecipe)
  expect(asked).toBeGreaterThan(5)
  expect(asked).toBeLessThan(40)
})

test('a score that is stored reads none either', async () => {
  const state = await readSeatState(listening.world, browser)
  if (!state.ok) throw new Error(state.reason)
  const score = {
    sitting: state.value.sitting,
    code: state.value.cups[0]?.code ?? '',
    attribute: 0,
    value: 7,
    revision: 1,
  }
  expect(await wholeTables(() => storeScore(listening.world, browser, { ...score, key: 'key-number-one' }))).toEqual([])
})

test('nor does one that is changed, whose first change the diary has', async () => {
  const state = await readSeatState(listening.world, browser)
  if (!state.ok) throw new Error(state.reason)
  const { sitting, cups } = state.value
  const score = { sitting, code: cups[0]?.code ?? '', attribute: 0, value: 3, revision: 9, key: 'key-number-nine' }
  expect(await wholeTables(() => storeScore(listening.world, browser, score))).toEqual([])
})

/** Sorting all lines of a café for the newest hundred reads them all; sorting those of one moment does not. */
const sortsAll = (steps: readonly string[]) => steps.includes('USE TEMP B-TREE FOR ORDER BY')

test('a page of the diary, the first as well as a later one, finds its lines in the order of the clock', async () => {
  const below = (await panel.db.auditRow.findFirstOrThrow()).id
  for (const from of [null, below]) {
    for (const read of [readDiary, readDiaryFolds]) {
      const explained = await listening.explain(() => read(listening.world, panel, from))
      const lines = explained.filter(({ sql, steps }) => sql.includes('AuditRow') && steps.join().includes('SEARCH'))
      expect(lines.length).toBeGreaterThan(0)
      expect(lines.filter(({ steps }) => sortsAll(steps))).toEqual([])
      expect(await wholeTables(() => read(listening.world, panel, from))).toEqual([])
    }
  }
})
