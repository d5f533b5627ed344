/**
 * A plan rehearsed in a thread of its own, from the file that `bundleWorker` makes. The reference is the same code in this thread.
 */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setImmediate } from 'node:timers/promises'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test, vi } from 'vitest'
import { bundleWorker } from '@/lib/commands/worker-bundle.mjs'
import { PlanFiguresForm } from '@/lib/forms/plan-figures-form'
import { playPlan, type PlanQuestion } from '@/lib/tasks/plan/play-plan'
import { playInWorker, rehearsalDesk } from '@/lib/tasks/plan/rehearsal-desk'
import { questionOf, rehearsePlan } from '@/lib/tasks/plan/rehearse-plan'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let folder: string
let cafe: TestCafe
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'sipwright-worker-'))
  await bundleWorker(folder)
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))
beforeEach(async () => {
  vi.stubEnv('NEXT_DIST_DIR', folder)
  cafe = await cafeForTest()
})
afterEach(async () => {
  vi.unstubAllEnvs()
  await cafe.close()
})

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

const unheard = (error: unknown) => {
  throw error
}

function questionFor(more: Record<string, string>): PlanQuestion {
  const question = questionOf(typed(more), 1.4)
  if (!question) throw new Error('too little was typed')
  return question
}

test.each<Record<string, string>>([
  {},
  { cups: '2', seats: '9', difference: '2' },
  { aim: 'better', kind: 'against-house', cups: '4', seats: '60' },
  { aim: 'better', kind: 'one-pair', difference: '0.5' },
  { aim: 'as-good', kind: 'against-house', margin: '0.8' },
  { cups: '5', perTaster: '3', seats: '20', difference: '1.5' },
])('in its thread a plan says to the last number what it says here: %j', async (more) => {
  const question = { ...questionFor(more), panels: 150 }
  const player = playInWorker(question)
  expect(await player.answer).toEqual(playPlan(question))
  await player.end()
})

test('while it is played the thread that serves goes on turning', async () => {
  let isOver = false
  // so long that it cannot be over before the first turn, whatever the machine does
  const player = playInWorker({ ...questionFor({ seats: '200' }), panels: 400 })
  const answer = player.answer.finally(() => (isOver = true))
  let turns = 0
  while (!isOver) {
    await setImmediate()
    turns++
  }
  // played here, it would have been one
  expect(turns).toBeGreaterThan(10)
  expect((await answer).rehearsed.panels).toBe(400)
  await player.end()
})

test('a thousand panels, and by how many tasters the best stands alone', async () => {
  const played = await rehearsePlan(cafe.world, cafe.owner, typed(), unheard)
  if (!played.ok) throw new Error(played.reason)
  const { rehearsed, best, spread } = played.value
  expect(spread.sd).toBe(1.4)
  expect(rehearsed.panels).toBe(1000)
  // R, make/tasters-for-best.R: 58 tasters give 81.5 of 100
  expect(best?.low).toBeLessThanOrEqual(58)
  expect(best?.high).toBeGreaterThan(50)
  expect(await rehearsePlan(cafe.world, cafe.owner, typed({ seats: '' }), unheard)).toMatchObject({
    reason: 'too-little',
  })
})

test('a worker that cannot be started or breaks off is a reason, never an error', async () => {
  const heard: unknown[] = []
  const ask = (more: Partial<PlanQuestion> = {}) =>
    desk.ask('ana', { ...questionFor({}), ...more }, (error) => heard.push(error))
  const desk = rehearsalDesk(playInWorker, { waiting: 1, longestMs: 600_000 })
  vi.stubEnv('NEXT_DIST_DIR', join(folder, 'nowhere'))
  expect(await ask()).toEqual({ ok: false, reason: 'broke-off' })
  vi.stubEnv('NEXT_DIST_DIR', folder)
  expect(await ask({ sd: -1 })).toEqual({ ok: false, reason: 'broke-off' })
  expect(heard).toHaveLength(2)
  expect(await ask({ panels: 20 })).toMatchObject({ ok: true })
})

test('a process is not held up by a rehearsal that nobody waits for', () => {
  // it would be played for days
  const question = { ...questionFor({ seats: '200', cups: '15', perTaster: '6' }), panels: 1e9 }
  const program = `import { playInWorker } from './lib/tasks/plan/rehearsal-desk.ts'
    void playInWorker(${JSON.stringify(question)})
    process.stdout.write('begun')`
  const words = ['--import', 'tsx', '--conditions=react-server', '--input-type=module', '--eval', program]
  const env = { ...process.env, NEXT_DIST_DIR: folder }
  expect(execFileSync(process.execPath, words, { encoding: 'utf8', env })).toBe('begun')
})
