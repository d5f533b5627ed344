/** A panel that asks whether two cups can be told apart, as its own acts hold it: planned, opened, answered by phones. */
import type { PlanTyped } from '@/lib/forms/panel-form'
import type { DifferenceDesign } from '@/lib/panel/kinds/difference'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { lockSet, skipSet } from '@/lib/tasks/taste/settle-set'
import { storeSetAnswer } from '@/lib/tasks/taste/store-set-answer'
import { takeSeat } from '@/lib/tasks/taste/take-seat'
import type { World } from '@/lib/tasks/world'
import type { TestCafe } from './cafe'

/** A triangle that is to find a difference, one answer each. */
export function designForTest(more: Partial<DifferenceDesign> = {}): DifferenceDesign {
  const plain = { aim: 'differ', protocol: 'triangle', property: null, each: 1, share: 30, mask: null } as const
  return { kind: 'difference', ...plain, ...more }
}

/** A plan of the café's first two trials: A is the first, and has more of a property. */
export async function openDifferencePanel(
  cafe: TestCafe,
  design: Partial<DifferenceDesign> = {},
  more: Partial<PlanTyped> = {},
): Promise<string> {
  const cups = cafe.trialIds.slice(0, 2)
  const [pairA = null, pairB = null] = cups
  const plan = cafe.plan({
    ...{ cups, aspects: [], aim: 'better', primaryKind: 'one-pair', pairA, pairB, smallestDifference: 0 },
    asks: designForTest(design),
    ...more,
  })
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, plan)
  if (!planned.ok) throw new Error(planned.reason)
  const opened = await openPanel(cafe.world, cafe.owner, planned.value)
  if (!opened.ok) throw new Error(opened.reason)
  return planned.value
}

/** A phone at the next free seat, with what it may send about its sets. */
export async function differencePhone(world: World, panelId: string, name = 'Ana') {
  const { joinToken, design, primaryTrialAId } = await world.db.panel.findUniqueOrThrow({ where: { id: panelId } })
  const { protocol } = JSON.parse(design ?? '{}') as DifferenceDesign
  const browser = world.token()
  const taken = await takeSeat(world, { kind: 'join', token: joinToken }, { browser, userId: null, name })
  if (!taken.ok) throw new Error(taken.reason)
  const state = await readSeatState(world, browser)
  if (!state.ok) throw new Error(state.reason)
  const { sitting, seat } = state.value
  let sent = 0
  const message = (set: number) => ({ sitting, set, revision: (sent += 1), key: `a-key-of-its-own-${sent}` })
  const send = (set: number, answer: readonly number[]) =>
    storeSetAnswer(world, browser, { attribute: 0, ...message(set), act: 'answer', answer: [...answer] })
  return {
    browser,
    seat,
    state: () => readSeatState(world, browser),
    answer: (answer: readonly number[], set = 1) => send(set, answer),
    lock: (set = 1) => lockSet(world, browser, message(set)),
    skip: (set = 1) => skipSet(world, browser, { ...message(set), reason: 'spilt-or-missing' }),
    /** the answer that is right, or one that is wrong, read past the blind */
    async said(isRight: boolean, set = 1): Promise<number[]> {
      const servings = await world.db.serving.findMany({
        where: { panelId, seat: { number: seat }, set: { number: set } },
        orderBy: { position: 'asc' },
        select: { position: true, cup: { select: { trialId: true } } },
      })
      const cups = servings.map(({ cup }) => cup.trialId)
      const [first = ''] = cups
      const same = (trialId: string) => cups.filter((one) => one === trialId).length
      const at = (which: (trialId: string, at: number) => boolean) =>
        servings.filter(({ cup }, place) => which(cup.trialId, place) === isRight).map(({ position }) => position)
      switch (protocol) {
        case 'triangle':
          return at((trialId) => same(trialId) === 1).slice(0, 1)
        case 'duo-trio':
          return at((trialId) => trialId === first).filter((one) => one !== servings[0]?.position)
        case 'two-afc':
        case 'three-afc':
          return at((trialId) => trialId === primaryTrialAId).slice(0, 1)
        case 'tetrad': {
          const [one = 0] = servings.map(({ position }) => position)
          const other = servings.slice(1).find(({ cup }) => (cup.trialId === first) === isRight)
          return [one, other?.position ?? 0]
        }
      }
    },
    /** answers so and goes on */
    async tell(isRight: boolean, set = 1) {
      const answered = await send(set, await this.said(isRight, set))
      if (!answered.ok) throw new Error(answered.reason)
      return this.lock(set)
    },
  }
}
