/**
 * A panel of eight scored and closed, and what its result page says, against R.
 * Made   test/reference/make/panel-of-eight.R: t.test(paired = TRUE), p.adjust("holm"), lmer; tolerance 1e-6
 */
import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { parse } from 'csv-parse/sync'
import { runStats } from '@/lib/commands/stats/run-stats'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { decide } from '@/lib/tasks/result/decide'
import { exportColumns, exportPanel, exportScores, scoreColumns } from '@/lib/tasks/result/export-panel'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readHistory, readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { readReproduced } from '@/lib/tasks/result/read-reproduced'
import { readResult } from '@/lib/tasks/result/read-result'
import { readResultGlasses } from '@/lib/tasks/result/read-result-glasses'
import { readHome } from '@/lib/tasks/house/read-home'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'
import { fromR, scoreAsInR } from '@/test/support/panel-of-eight'

const within = 1e-6

/** The script is run where R and its two packages are there. */
const hasR = spawnSync('Rscript', ['-e', 'library(lme4); library(clubSandwich)'], { stdio: 'ignore' }).status === 0

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
    expect(Math.abs((ours?.paired?.difference ?? NaN) - pair.difference)).toBeLessThan(within)
    expect(Math.abs((ours?.paired?.interval?.[0] ?? NaN) - pair.low)).toBeLessThan(within)
    expect(Math.abs((ours?.paired?.interval?.[1] ?? NaN) - pair.high)).toBeLessThan(within)
    expect(Math.abs((ours?.paired?.pHolm ?? NaN) - pair.pHolm)).toBeLessThan(within)
  }
  expect(result?.needed?.tasters).toBe(fromR.tastersForOnePoint)
})

test('the verdict says what R’s joint intervals allow: B over A, and nothing about C', async () => {
  await scoreAsInR(cafe, panelId)
  await closePanel(cafe.world, cafe.owner, panelId)
  const result = await readResult(cafe.world, cafe.owner, panelId)
  expect(result?.verdict.told).toBe('better')
  expect(result?.verdict.sentence).toContain(
    'Cup B (Velvetine 2) is liked better than cup A (Velvetine 1), by 1.2 to 2.6 points.',
  )
  expect(result?.verdict.sentence).toContain(
    'This panel cannot tell cup C (Velvetine 3) from cup A (Velvetine 1) nor cup B (Velvetine 2) from cup C (Velvetine 3).',
  )
  expect(result?.missing.notTaken).toEqual([9])
})

test('the scores file has a line for every answer and takes no formula with it', async () => {
  await scoreAsInR(cafe, panelId)
  await closePanel(cafe.world, cafe.owner, panelId)
  const csv = await exportScores(cafe.world, cafe.owner, panelId)
  const lines: Record<string, string>[] = parse(csv ?? '', { columns: true })
  expect(Object.keys(lines[0] ?? {})).toEqual(scoreColumns.map(([name]) => name))
  expect(lines).toHaveLength(24)
  expect(lines[0]?.['comment']?.startsWith("'=")).toBe(true)
})

/** Turns the planned question into another one, as if it had been planned so. */
async function ask(question: { kind: string; aim: string; margin: number | null; pair?: readonly [number, number] }) {
  const { db, trialIds } = cafe
  await db.panel.update({
    where: { id: panelId },
    data: {
      aim: question.aim,
      primaryKind: question.kind,
      notWorseMargin: question.margin,
      primaryTrialAId: question.pair ? trialIds[question.pair[0]] : null,
      primaryTrialBId: question.pair ? trialIds[question.pair[1]] : null,
    },
  })
  await db.cup.updateMany({ where: { panelId }, data: { isHouse: false } })
  if (question.kind === 'against-house')
    await db.cup.updateMany({ where: { panelId, trialId: trialIds[0] }, data: { isHouse: true } })
}

const questions = [
  { kind: 'all-pairs', aim: 'best', margin: null },
  { kind: 'all-pairs', aim: 'best', margin: 5 },
  { kind: 'against-house', aim: 'better', margin: null },
  { kind: 'against-house', aim: 'as-good', margin: 5 },
  { kind: 'one-pair', aim: 'better', margin: null, pair: [2, 0] },
  { kind: 'one-pair', aim: 'as-good', margin: 5, pair: [1, 2] },
] as const

describe.each(questions)('$aim, $kind, margin $margin', (question) => {
  /** One score left out for dislike, one missing: the numbers must agree there as well. */
  beforeEach(async () => {
    await ask(question)
    await scoreAsInR(cafe, panelId)
    const [disliked, missing] = await cafe.db.serving.findMany({
      where: { panelId, cup: { trialId: cafe.trialIds[2] }, seat: { number: { in: [2, 5] } } },
    })
    await cafe.db.serving.update({
      where: { id: disliked?.id },
      data: { skippedAt: cafe.world.now(), skipReason: 'rather-not' },
    })
    await cafe.db.score.deleteMany({ where: { servingId: missing?.id } })
    await closePanel(cafe.world, cafe.owner, panelId)
  })

  test('the command that the page names gives the page’s numbers from the scores file', async () => {
    const csv = await exportScores(cafe.world, cafe.owner, panelId)
    const result = await readResult(cafe.world, cafe.owner, panelId)
    const words = (await readReproduced(cafe.world, cafe.owner, panelId))?.command ?? ''
    let [out, err] = ['', '']
    const code = await runStats(words.match(/'[^']*'|\S+/g)?.map((word) => word.replaceAll("'", '')) ?? [], {
      read: () => new TextEncoder().encode(csv ?? ''),
      out: (text) => (out += text),
      err: (line) => (err += line),
    })
    expect([code, err]).toEqual([0, ''])
    const answer = JSON.parse(out) as { claims: unknown; cups: unknown; pairs: unknown; model: unknown }
    const page = JSON.parse(JSON.stringify(result?.primary)) as typeof answer
    expect(answer.claims).toEqual(page.claims)
    expect(answer.cups).toEqual(page.cups)
    expect(answer.pairs).toEqual(page.pairs)
    expect(answer.model).toEqual(page.model)
    expect(result?.beside.some((line) => /would rather not/.test(line))).toBe(true)
  })

  test.skipIf(!hasR)('and the R script gives its claims', { timeout: 600_000 }, async () => {
    const folder = mkdtempSync(join(tmpdir(), 'sipwright-r-'))
    try {
      writeFileSync(join(folder, 'scores.csv'), (await exportScores(cafe.world, cafe.owner, panelId)) ?? '')
      writeFileSync(join(folder, 'panel.R'), (await readReproduced(cafe.world, cafe.owner, panelId))?.script ?? '')
      const said = execFileSync('Rscript', ['panel.R', 'scores.csv'], {
        cwd: folder,
        encoding: 'utf8',
        stdio: ['ignore', 'pipe', 'ignore'],
      })
      const inR = [...said.matchAll(/^(\w) less (\w): (\S+), .*interval (\S+) to (\S+)$/gm)].map(
        ([, a, b, ...numbers]) => ({ a, b, numbers: numbers.map(Number) }),
      )
      const claims = (await readResult(cafe.world, cafe.owner, panelId))?.primary?.claims ?? []
      expect(inR.length).toBe(claims.length)
      for (const { a, b, difference, low, high } of claims) {
        const same = inR.find((one) => [one.a, one.b].includes(a) && [one.a, one.b].includes(b))
        const sign = same?.a === a ? 1 : -1
        const ours = [sign * difference, sign === 1 ? low : -(high ?? 0), sign === 1 ? high : -(low ?? 0)]
        // what passes through lme4's optimiser
        ours.forEach((one, place) => expect(Math.abs((one ?? NaN) - (same?.numbers[place] ?? NaN))).toBeLessThan(2e-3))
      }
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  })
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
  const history = await readHistory(world, reader, recipeId, 1)
  expect(history?.decisions.map((one) => [one.version, one.by, one.panel?.id])).toEqual([
    [2, 'Ottoline', panelId],
    [1, 'Ottoline', panelId],
  ])
  expect(recipe?.panels[0]).toMatchObject({ stage: 'decided', tasters: 8 })
})

test('a decision keeps what was on the table that day, whatever is learned later', async () => {
  await scoreAsInR(cafe, panelId)
  const { world, owner, trialIds, recipeId, db } = cafe
  await closePanel(world, owner, panelId)
  await decide(world, owner, panelId, { kind: 'adopt', trialId: trialIds[1], reason: 'Liked better.' })
  const shown = await readResult(world, owner, panelId)
  const kept = async () => (await readHistory(world, owner, recipeId, 1))?.decisions[0]?.evidence
  const before = await kept()
  expect(before?.sentence).toBe(shown?.verdict.sentence)
  expect(before?.claims).toEqual(
    shown?.claims.map(({ first, second, difference, interval, tasters }) => ({
      first,
      second,
      difference,
      low: interval?.[0],
      high: interval?.[1],
      tasters,
    })),
  )
  expect(before?.trials.map(({ trialId, letter, labels }) => [trialId, letter, labels?.contains])).toEqual([
    [trialIds[0], 'A', []],
    [trialIds[1], 'B', []],
    [trialIds[2], 'C', []],
  ])
  const coffee = await db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine beans' } })
  await db.ingredientAllergen.create({
    data: { id: world.id(), cafeId: owner.cafeId, ingredientId: coffee.id, allergen: 'milk', state: 'may-contain' },
  })
  const glasses = await readResultGlasses(world, owner, panelId)
  // what a label only may contain is not passed over
  expect(glasses?.[0]?.labels).toMatchObject({ contains: [], mayContain: ['Milk'] })
  expect(await kept()).toEqual(before)
  expect((await readHome(world, owner, true)).decided[0]?.evidence).toEqual(before)
})

test('where a panel kept another sentence than its scores give today, the decision keeps both', async () => {
  await scoreAsInR(cafe, panelId)
  const { world, owner, trialIds, recipeId, db } = cafe
  await closePanel(world, owner, panelId)
  const now = (await readResult(world, owner, panelId))?.verdict.sentence ?? ''
  const { closingAnswer } = await db.panel.findUniqueOrThrow({ where: { id: panelId } })
  const former = closingAnswer
    ?.replace(JSON.stringify(now), '"As it was told then."')
    .replace(/"program":"[^"]*"/, '"program":"an earlier one"')
  await db.panel.update({ where: { id: panelId }, data: { closingAnswer: former ?? null } })
  await decide(world, owner, panelId, { kind: 'adopt', trialId: trialIds[1], reason: 'Liked better.' })
  const kept = (await readHistory(world, owner, recipeId, 1))?.decisions[0]?.evidence
  expect([kept?.sentence, kept?.today]).toEqual(['As it was told then.', now])
})

test('a decision of before anything was kept, and one whose text is none, still stand in the history', async () => {
  await scoreAsInR(cafe, panelId)
  const { world, owner, trialIds, recipeId, db } = cafe
  await closePanel(world, owner, panelId)
  for (const reason of ['First.', 'Second.'])
    await decide(world, owner, panelId, { kind: 'adopt', trialId: trialIds[1], reason })
  await db.decision.updateMany({ where: { version: 1 }, data: { evidence: null } })
  await db.decision.updateMany({ where: { version: 2 }, data: { evidence: '{"version":1,"claims":7}' } })
  const history = await readHistory(world, owner, recipeId, 1)
  expect(history?.decisions.map(({ reason, evidence }) => [reason, evidence])).toEqual([
    ['Second.', null],
    ['First.', null],
  ])
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
