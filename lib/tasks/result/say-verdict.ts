import 'server-only'
import { fixed } from '@/lib/base/number-format'
import type { FirstPair as CupPair, MarginPair, FirstAnswer as AcceptanceAnswer } from '@/lib/stats/liking/first-answer'
import type { Interval } from '@/lib/stats/outcome'
import { tastersForAcceptance } from '@/lib/stats/plan/score-power'
import type { Planned, ResultCup } from './panel-answers'

/** What the panel says, in sentences one can repeat, and what to do next. */
export interface Verdict {
  readonly sentence: string
  /** the numbers behind it, one sentence for each comparison that was planned */
  readonly numbers: readonly string[]
  /** not-worse and equivalence, where a margin was planned */
  readonly margin: readonly string[]
  readonly next: string
  readonly told: 'better' | 'cannot-tell' | 'nothing'
}

/** How many tasters find the planned difference, given this panel's spread. */
export interface Needed {
  readonly tasters: number
  readonly difference: number
  readonly spread: number
}

const power = 0.8

/**
 * Tasters needed for the *planned* smallest difference, from this panel's spread about each taster's own mean.
 * Never from the difference that was seen: that would only repeat the p-value.
 */
export function tastersNeeded(answer: AcceptanceAnswer, plan: Planned): Needed | null {
  const { residual, tasterByCup } = answer.model.variance
  if (residual === null) return null
  const spread = Math.sqrt(residual + (tasterByCup ?? 0))
  if (!(spread > 0)) return null
  const question = {
    sd: spread,
    difference: plan.smallestDifference,
    cups: answer.counts.cups,
    alpha: 1 - answer.level,
    plan: plan.kind === 'one-pair' ? ('pair' as const) : answer.control ? ('against' as const) : ('all' as const),
  }
  return { tasters: tastersForAcceptance(question, { power }).n, difference: plan.smallestDifference, spread }
}

/** Better minus worse: a comparison turned so that the first cup is the one spoken of. */
export interface Turned {
  readonly first: string
  readonly second: string
  readonly difference: number | null
  readonly interval: Interval | null
  readonly p: number | null
  readonly preferFirst: number
  readonly preferSecond: number
  readonly tied: number
  readonly told: 'better' | 'worse' | 'cannot tell'
}

/** A pair seen from one of its cups, on the basis its verdict rests on, with the p of the family it belongs to. */
export function turned(answer: AcceptanceAnswer, pair: CupPair, first: string): Turned {
  const sign = pair.a === first ? 1 : -1
  const second = pair.a === first ? pair.b : pair.a
  const seen = pair.verdict.basis === 'paired' ? pair.paired : pair
  const family = answer.control?.pairs.find((one) => [first, second].includes(one.cup) && isPairWith(answer, pair))
  const outcome = family
    ? family.verdict.outcome === 'cannot tell'
      ? 'cannot tell'
      : (family.verdict.outcome === 'better') === (family.cup === first)
        ? 'better'
        : 'worse'
    : pair.verdict.outcome === 'cannot tell'
      ? 'cannot tell'
      : (pair.verdict.outcome === 'a better') === (pair.a === first)
        ? 'better'
        : 'worse'
  return {
    first,
    second,
    difference: seen.difference === null ? null : sign * seen.difference,
    interval: turn(seen.interval, sign),
    p: family ? family.verdict.pHolm : pair.verdict.pHolm,
    preferFirst: sign === 1 ? pair.preferA : pair.preferB,
    preferSecond: sign === 1 ? pair.preferB : pair.preferA,
    tied: pair.tied,
    told: outcome,
  }
}

const isPairWith = (answer: AcceptanceAnswer, pair: CupPair) => [pair.a, pair.b].includes(answer.control?.cup ?? '')

function turn(interval: Interval | null, sign: number): Interval | null {
  if (interval === null) return null
  return sign === 1 ? interval : [-interval[1], -interval[0]]
}

export function sayVerdict(answer: AcceptanceAnswer | null, cups: readonly ResultCup[], plan: Planned): Verdict {
  if (!answer || answer.counts.tasters < 2 || answer.counts.cups < 2) {
    return {
      sentence: 'There are too few scores to compare the cups.',
      numbers: [],
      margin: [],
      next: 'Test again, with more tasters.',
      told: 'nothing',
    }
  }
  const name = nameOf(cups)
  const compared = comparisons(answer)
  const better = compared.filter((one) => one.told !== 'cannot tell')
  const needed = tastersNeeded(answer, plan)
  return {
    sentence: better.length === 0 ? cannotTell(needed, answer.counts.tasters) : sayBetter(answer, compared, name),
    numbers: compared.map((one) => sayNumbers(one, name)),
    margin: sayMargins(answer, plan, name),
    next:
      better.length > 0
        ? 'Decide: adopt a trial, keep the present one, or test again.'
        : 'Decide on other grounds, such as cost, or test again with more tasters. That the panel cannot tell does not show that the cups are equal.',
    told: better.length > 0 ? 'better' : 'cannot-tell',
  }
}

/** The comparisons of the plan: with the house recipe where that was the question, else every pair, better cup first. */
export function comparisons(answer: AcceptanceAnswer): Turned[] {
  const { control } = answer
  if (control) {
    return answer.pairs
      .filter((pair) => isPairWith(answer, pair))
      .map((pair) => turned(answer, pair, pair.a === control.cup ? pair.b : pair.a))
  }
  return answer.pairs.map((pair) => turned(answer, pair, pair.difference >= 0 ? pair.a : pair.b))
}

function nameOf(cups: readonly ResultCup[]) {
  return (letter: string) => {
    const cup = cups.find((one) => one.letter === letter)
    if (!cup) return `cup ${letter}`
    return cup.isHouse ? `the house recipe (cup ${letter})` : `cup ${letter} (${cup.name})`
  }
}

type Name = ReturnType<typeof nameOf>

const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1)
const andList = (words: readonly string[]) =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`

function sayBetter(answer: AcceptanceAnswer, compared: readonly Turned[], name: Name): string {
  const { top, control } = answer
  if (control) {
    const untold = compared.filter((one) => one.told === 'cannot tell').map((one) => name(one.first))
    const told = capital([...sayGroups(compared, 'better', name), ...sayGroups(compared, 'worse', name)].join('; '))
    return `${told}.${untold.length > 0 ? ` About ${andList(untold)} this panel cannot tell.` : ''}`
  }
  const only = top[0]
  if (top.length === 1 && only !== undefined) {
    const over = compared.filter((one) => one.first === only).sort((x, y) => (x.difference ?? 0) - (y.difference ?? 0))
    const each = over.length > 1 ? 'every other cup' : name(over[0]?.second ?? '')
    const by = over[0]?.interval ? `, by ${range(over[0])} points${over.length > 1 ? ' over the next one' : ''}` : ''
    return `${capital(name(only))} is liked better than ${each}${by}.`
  }
  return `${capital(sayGroups(compared, 'better', name).join('; '))}; between ${andList(top.map(name))} this panel cannot tell.`
}

/** Cups that are liked better (or less) than the same other cup share one clause: "B and C are liked better than A, by … and …". */
function sayGroups(compared: readonly Turned[], told: 'better' | 'worse', name: Name): string[] {
  const those = compared.filter((one) => one.told === told)
  const seconds = [...new Set(those.map((one) => one.second))]
  return seconds.map((second) => {
    const group = those.filter((one) => one.second === second)
    const firsts = andList(group.map((one) => name(one.first)))
    const by = group.every((one) => one.interval) ? `, by ${andList(group.map(range))} points` : ''
    return `${firsts} ${group.length > 1 ? 'are' : 'is'} liked ${told === 'better' ? 'better' : 'less'} than ${name(second)}${by}`
  })
}

/** "0.4 to 1.5": the interval, seen from the better side. */
function range({ interval, told }: Turned): string {
  if (!interval) return 'an unknown number of'
  const [low, high] = told === 'worse' ? [-interval[1], -interval[0]] : interval
  return `${fixed(low, 1)} to ${fixed(high, 1)}`
}

function sayNumbers(one: Turned, name: Name): string {
  const difference =
    one.difference === null
      ? 'difference not known'
      : `difference ${fixed(one.difference, 2)} points${one.interval ? ` (95 % interval ${fixed(one.interval[0], 2)} to ${fixed(one.interval[1], 2)})` : ''}`
  const p = one.p === null ? '' : `, adjusted p ${one.p < 0.001 ? 'below 0.001' : fixed(one.p, 3)}`
  return `${capital(name(one.first))} and ${name(one.second)}: ${difference}${p}; ${one.preferFirst} scored the first higher, ${one.preferSecond} the second, ${one.tied} gave both the same.`
}

function cannotTell(needed: Needed | null, tasters: number): string {
  const words = 'This panel cannot tell the cups apart.'
  if (!needed) return words
  const difference = `a difference of ${fixed(needed.difference, 1)} ${needed.difference === 1 ? 'point' : 'points'}`
  // Power belongs to the plan: it says what the panel could have found, and nothing about what it did not find.
  return tasters >= needed.tasters
    ? `${words} It was large enough to find ${difference}, as planned, four times out of five.`
    : `${words} To find ${difference}, as planned, it takes about ${needed.tasters} tasters with this panel’s spread.`
}

function sayMargins(answer: AcceptanceAnswer, plan: Planned, name: Name): string[] {
  const { margin, control } = answer
  if (!margin) return []
  const points = `${fixed(margin.margin, 1)} ${margin.margin === 1 ? 'point' : 'points'}`
  return margin.pairs
    .filter((pair) => !control || [pair.a, pair.b].includes(control.cup))
    .flatMap((pair) => sayMargin(pair, control?.cup ?? null, points, name))
}

function sayMargin(pair: MarginPair, house: string | null, points: string, name: Name): string[] {
  if (pair.equivalent) return [`${capital(name(pair.a))} and ${name(pair.b)} differ by less than ${points}.`]
  const sides = [
    { cup: pair.a, other: pair.b, holds: pair.aNotWorse.holds },
    { cup: pair.b, other: pair.a, holds: pair.bNotWorse.holds },
  ].filter((side) => house === null || side.other === house)
  const held = sides.filter((side) => side.holds)
  if (held.length > 0)
    return held.map((side) => `${capital(name(side.cup))} is not worse than ${name(side.other)} by ${points} or more.`)
  return sides
    .slice(0, 1)
    .map(
      (side) =>
        `Whether ${name(side.cup)} is worse than ${name(side.other)} by ${points} or more, this panel cannot tell.`,
    )
}
