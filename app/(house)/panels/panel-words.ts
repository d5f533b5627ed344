import type { PanelCup, PanelReading } from '@/lib/tasks/plan/panel-reading'
import type { Progress } from '@/lib/tasks/pour/read-progress'
import { plain } from '@/lib/base/number-format'
import { sayDifferenceAsked, sayDifferencePlan } from './say-difference'

export const panelsStep = { href: '/panels', words: 'Panels' } as const

export function panelTrail(panel: { readonly id: string; readonly title: string }) {
  return [panelsStep, { href: `/panels/${panel.id}`, words: panel.title }]
}

/** "1 cup", "4 cups" */
export function counted(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`
}

/** "a", "a and b", "a, b and c" */
export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1] ?? ''}`
}

/** tenths of a point → "0.5 points" */
function sayPoints(tenths: number): string {
  return `${plain(tenths / 10, 1)} ${tenths === 10 ? 'point' : 'points'}`
}

export function cupName(cup: Pick<PanelCup, 'trialName' | 'trialNumber'>): string {
  return `${cup.trialName} (trial ${cup.trialNumber})`
}

/** What the panel compares, in the sentence that was fixed before the first cup. */
export function sayComparison({ plan, cups }: PanelReading): string {
  if (plan.asks?.kind === 'rank') return sayRankPlan(plan.asks, cups)
  if (plan.asks) return sayAsks(plan.asks, inOrder(cups, plan.pair[0]))
  const nameOf = (id: string | null) => cups.find((cup) => cup.trialId === id)?.trialName ?? 'a trial'
  const [one, other] =
    plan.primaryKind === 'one-pair'
      ? [nameOf(plan.pair[0]), nameOf(plan.pair[1])]
      : [cups.length > 2 ? 'each other cup' : 'the other cup', 'the house recipe']
  const margin = plan.notWorseMargin === null ? 'no more than was planned' : `at most ${sayPoints(plan.notWorseMargin)}`
  if (plan.aim === 'as-good') return `Is ${one} at least as good as ${other}: less liked by ${margin}?`
  const matters = `A difference of ${sayPoints(plan.smallestDifference)} or more would matter.`
  if (plan.aim === 'better') return `Is ${one} liked better than ${other}? ${matters}`
  const notWorse = plan.notWorseMargin === null ? '' : ` “Not worse” means ${margin} below.`
  return `Which is liked best? Every cup is compared with every other. ${matters}${notWorse}`
}

/** The cup that the plan names first stands first. */
const inOrder = (cups: PanelReading['cups'], first: string | null) =>
  cups.toSorted((a, b) => Number(b.trialId === first) - Number(a.trialId === first))

type Asks = NonNullable<PanelReading['plan']['asks']>

/** What is asked about cups together. */
export function sayAsked(asks: Asks): string {
  if (asks.kind === 'difference') return sayDifferenceAsked(asks)
  if (asks.kind === 'rank') return 'in which order they like them, once they have tasted all; no two share a place'
  const { none } = asks
  return `which of the two they like better, once they have tasted both${none ? '; “no preference” may be said' : ''}`
}

function sayRankPlan({ share }: { readonly share: number }, cups: PanelReading['cups']): string {
  const names = listed(cups.map(({ trialName }) => trialName))
  return `Which of ${names} is liked best, and which are told apart? It is to find a best cup that ${share} of 100 put above any one other.`
}

function sayAsks(asks: Exclude<Asks, { readonly kind: 'rank' }>, cups: PanelReading['cups']): string {
  const names = cups.map(({ trialName }) => trialName)
  if (asks.kind === 'difference') return sayDifferencePlan(asks, names)
  const { share } = asks
  return `Which is preferred, ${names.join(' or ')}? It is to find ${share} to ${100 - share} among those who prefer one.`
}

/** "12 of 24 seats have finished, 5 are tasting." */
export function sayProgress({ seats }: Pick<Progress, 'seats'>): string {
  const count = (state: string) => seats.filter((seat) => seat.state === state).length
  const [finished, tasting, left, barred] = [count('finished'), count('tasting'), count('left'), count('barred')]
  const aside = count('set-aside')
  if (finished + tasting + left + barred + aside === 0)
    return `Nobody has taken a seat yet; ${counted(seats.length, 'seat')} wait.`
  const rest = [
    tasting > 0 ? `${tasting} ${tasting === 1 ? 'is' : 'are'} tasting` : '',
    left > 0 ? `${left} left early` : '',
    barred > 0 ? `${barred} ${barred === 1 ? 'takes' : 'take'} no more scores` : '',
    aside > 0 ? `${aside} ${aside === 1 ? 'is' : 'are'} set aside` : '',
  ].filter((part) => part !== '')
  const head = `${finished} of ${counted(seats.length, 'seat')} ${finished === 1 ? 'has' : 'have'} finished`
  return `${[head, ...rest].join(', ')}.`
}
