/** What a panel that puts its cups in order must hold, and how each of it is broken. */
import { expect } from 'vitest'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import type { Actor, World } from '@/lib/tasks/world'
import { rankPhone } from './rank-panel'

const TITLE = 'In which order?'

/** Such a panel of three of the demo's trials, open, seat 1 taken and not answered, seat 2 free. */
export async function holdOrder(world: World, actor: Actor): Promise<void> {
  const recipe = await world.db.recipe.findFirstOrThrow({ where: { name: 'Iced date-cardamom coffee' } })
  const trials = await world.db.trial.findMany({ where: { recipeId: recipe.id, number: { in: [1, 2, 3] } } })
  const planned = await planPanel(world, actor, recipe.id, {
    ...{ title: TITLE, publicTitle: 'Three cold coffees', question: TITLE, cups: trials.map(({ id }) => id) },
    ...{ pairA: null, pairB: null, duplicate: null, aspects: [], seatCount: 2, cupsPerTaster: null },
    ...{ aim: 'best', primaryKind: 'all-pairs', smallestDifference: 0, notWorseMargin: null, sampleMl: 40 },
    ...{ seenThrough: null, nothingSeen: true, asks: { kind: 'rank', share: 75 } },
  })
  const panelId = planned.ok ? planned.value : ''
  expect(await openPanel(world, actor, panelId, true)).toMatchObject({ ok: true })
  expect(await rankPhone(world, panelId)).toMatchObject({ seat: 1 })
}

const panel = `(SELECT id FROM Panel WHERE title = '${TITLE}')`
const asked = `(SELECT id FROM PanelAttribute WHERE panelId = ${panel})`
const seat = (number: number) => `(SELECT id FROM Seat WHERE panelId = ${panel} AND number = ${number})`
const cupAt = (number: number, position: number) =>
  `(SELECT cupId FROM Serving WHERE seatId = ${seat(number)} AND position = ${position})`

/** By the rule that must hear it. */
export const orderBreaks = {
  'order-asked-elsewhere': `UPDATE PanelAttribute SET kind = 'choose', options = '{"none":false}' WHERE id = ${asked}`,
  'order-of-too-few': `UPDATE Cup SET isDuplicate = true,
      trialId = (SELECT trialId FROM Cup WHERE panelId = ${panel} AND id <> ${cupAt(1, 1)} LIMIT 1)
    WHERE id = ${cupAt(1, 1)}`,
  'order-set-not-full': `UPDATE Serving SET cupId = ${cupAt(2, 1)}, pouring = 2
    WHERE seatId = ${seat(2)} AND position = 2`,
  'order-not-whole': `INSERT INTO SetAnswer (id, cafeId, setId, attributeId, answer, revision, key, source, at)
    SELECT 'half', cafeId, id, ${asked}, '[1,2,2]', 1, 'k', 'phone', '2026-11-27T12:00:00.000+00:00' FROM ServingSet
    WHERE seatId = ${seat(1)}`,
} as const
