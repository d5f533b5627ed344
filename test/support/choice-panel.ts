/** A panel of two cups as its own acts hold it: planned, opened, and answered by phones at its seats. */
import type { PlanTyped } from '@/lib/forms/panel-form'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { markCodeSeen } from '@/lib/tasks/taste/mark-code-seen'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { lockSet, skipSet } from '@/lib/tasks/taste/settle-set'
import { storeSetAnswer } from '@/lib/tasks/taste/store-set-answer'
import { takeSeat } from '@/lib/tasks/taste/take-seat'
import type { World } from '@/lib/tasks/world'
import type { TestCafe } from './cafe'

/** A plan of the café's first two trials: A is the first. */
function choicePlan(cafe: Pick<TestCafe, 'plan' | 'trialIds'>, more: Partial<PlanTyped> = {}): PlanTyped {
  const cups = cafe.trialIds.slice(0, 2)
  const [pairA = null, pairB = null] = cups
  return cafe.plan({
    cups,
    aspects: [],
    aim: 'better',
    primaryKind: 'one-pair',
    ...{ pairA, pairB },
    smallestDifference: 0,
    asks: { kind: 'choice', none: true, share: 65 },
    ...more,
  })
}

export async function openChoicePanel(cafe: TestCafe, more: Partial<PlanTyped> = {}): Promise<string> {
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, choicePlan(cafe, more))
  if (!planned.ok) throw new Error(planned.reason)
  const opened = await openPanel(cafe.world, cafe.owner, planned.value)
  if (!opened.ok) throw new Error(opened.reason)
  return planned.value
}

/** A phone at the next free seat, with what it may send about its set. */
export async function choicePhone(world: World, panelId: string, name = 'Ana') {
  const { joinToken } = await world.db.panel.findUniqueOrThrow({ where: { id: panelId } })
  const browser = world.token()
  const taken = await takeSeat(world, { kind: 'join', token: joinToken }, { browser, userId: null, name })
  if (!taken.ok) throw new Error(taken.reason)
  const state = await readSeatState(world, browser)
  if (!state.ok) throw new Error(state.reason)
  const { sitting, cups, seat } = state.value
  let sent = 0
  const message = (more: object = {}) => ({
    ...{ sitting, set: 1, revision: (sent += 1), key: `a-key-of-its-own-${sent}` },
    ...more,
  })
  return {
    browser,
    seat,
    sitting,
    cups,
    message,
    state: () => readSeatState(world, browser),
    seen: (cup: number) => markCodeSeen(world, browser, { sitting, code: cups[cup]?.code ?? '' }),
    answer: (answer: number[], more: object = {}) =>
      storeSetAnswer(world, browser, { attribute: 0, ...message(more), act: 'answer' as const, answer }),
    lock: () => lockSet(world, browser, message()),
    skip: () => skipSet(world, browser, { ...message(), reason: 'rather-not' as const }),
    /** which position this trial has at this seat, read past the blind */
    async positionOf(trialId: string) {
      const own = { seat: { panelId, number: seat }, cup: { trialId } }
      return (await world.db.serving.findFirstOrThrow({ where: own })).position
    },
    /** prefers this trial, or neither, and goes on */
    async prefer(trialId: string | null) {
      await this.answer(trialId === null ? [] : [await this.positionOf(trialId)])
      return this.lock()
    },
  }
}
