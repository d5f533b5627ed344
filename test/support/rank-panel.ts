/** A panel that puts its cups in order, as its own acts hold it: planned, opened, and answered by phones at its seats. */
import type { PlanTyped } from '@/lib/forms/panel-form'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import type { World } from '@/lib/tasks/world'
import type { TestCafe } from './cafe'
import { choicePhone } from './choice-panel'

/** Of the café's first three trials: A, B and C in the result. */
export async function openRankPanel(cafe: TestCafe, more: Partial<PlanTyped> = {}): Promise<string> {
  const planned = await planPanel(
    cafe.world,
    cafe.owner,
    cafe.recipeId,
    cafe.plan({
      cups: cafe.trialIds.slice(0, 3),
      aspects: [],
      smallestDifference: 0,
      asks: { kind: 'rank', share: 75 },
      ...more,
    }),
  )
  if (!planned.ok) throw new Error(planned.reason)
  const opened = await openPanel(cafe.world, cafe.owner, planned.value)
  if (!opened.ok) throw new Error(opened.reason)
  return planned.value
}

/** A phone at the next free seat. */
export async function rankPhone(world: World, panelId: string, name = 'Ana') {
  const phone = await choicePhone(world, panelId, name)
  return {
    ...phone,
    /** puts these trials in order, the one liked best first, and goes on */
    async order(trialIds: readonly string[]) {
      const places: number[] = []
      for (const trialId of trialIds) places.push(await phone.positionOf(trialId))
      await phone.answer(places)
      return phone.lock()
    },
  }
}
