import 'server-only'
import { fixed } from '@/lib/base/number-format'
import type { AcceptanceAnswer } from '@/lib/stats/liking/acceptance'
import { dividingCups } from '@/lib/stats/liking/dividing-cups'
import type { Interval } from '@/lib/stats/outcome'
import { pairedDifference } from '@/lib/stats/liking/paired-difference'
import { countedScore, saysDislike, scoreRows, type AnsweredServing, type ResultCup } from './panel-answers'
import type { PlannedClaim } from './planned-claims'

/** What stands beside a verdict where it holds: each says something that could change how far one trusts it. */
export type Beside =
  | {
      readonly code: 'cup-divides'
      readonly cup: string
      readonly tasters: number
      readonly up: number
      readonly down: number
      readonly spread: number
      readonly usual: number
    }
  | {
      readonly code: 'poured-twice'
      readonly cup: string
      readonly tasters: number
      /** second pouring less first, and how far the two were apart on average */
      readonly difference: number
      readonly interval: Interval | null
      readonly gap: number
    }
  | {
      readonly code: 'skipped'
      readonly cup: string
      readonly seats: number
      readonly skipped: number
      readonly ratherNot: number
      /** scores that were given before the cup was skipped; they do not count */
      readonly before: readonly number[]
    }
  | { readonly code: 'skips-survive' }
  | { readonly code: 'skips-decide'; readonly claims: readonly PlannedClaim[] }
  | {
      readonly code: 'first-cup'
      /** mean of the first place less the mean of the others */
      readonly difference: number
      readonly p: number
      /** how often the trial that stood first most, and least, did so */
      readonly most: number
      readonly least: number
    }

const level = 0.95

/** Reads what stands beside the verdict off the servings of a closed panel and its analysis. */
export function besideVerdict(
  servings: readonly AnsweredServing[],
  cups: readonly ResultCup[],
  likingId: string,
  answer: AcceptanceAnswer | null,
  claims: readonly PlannedClaim[],
): readonly Beside[] {
  const rows = scoreRows(servings, cups, likingId)
  return [
    ...dividingCups(rows).map((one) => ({ code: 'cup-divides' as const, ...one })),
    ...pouredTwice(servings, cups, likingId),
    ...skipped(servings, cups, likingId),
    ...survival(servings, claims),
    ...firstCup(servings, answer),
  ]
}

function pouredTwice(servings: readonly AnsweredServing[], cups: readonly ResultCup[], likingId: string): Beside[] {
  const cup = cups.find(({ isTwice }) => isTwice)
  if (!cup) return []
  const own = servings.filter((serving) => serving.cup.trialId === cup.trialId)
  const scoreOf = (seat: number, isDuplicate: boolean) => {
    const serving = own.find((one) => one.seat.number === seat && one.cup.isDuplicate === isDuplicate)
    return serving ? countedScore(serving, likingId) : null
  }
  const gaps = [...new Set(own.map(({ seat }) => seat.number))].flatMap((seat) => {
    const [first, second] = [scoreOf(seat, false), scoreOf(seat, true)]
    return first === null || second === null ? [] : [second - first]
  })
  const { difference, interval } = pairedDifference(Float64Array.from(gaps), level, 0)
  if (difference === null) return []
  const gap = gaps.reduce((sum, one) => sum + Math.abs(one), 0) / gaps.length
  return [{ code: 'poured-twice', cup: cup.letter, tasters: gaps.length, difference, interval, gap }]
}

function skipped(servings: readonly AnsweredServing[], cups: readonly ResultCup[], likingId: string): Beside[] {
  return cups.flatMap((cup): Beside[] => {
    const own = servings.filter((one) => one.cup.trialId === cup.trialId && one.seat.takenAt !== null)
    const left = own.filter((one) => one.skippedAt !== null)
    if (left.length === 0) return []
    const before = left.flatMap(({ scores }) => scores.filter((one) => one.attributeId === likingId))
    return [
      {
        code: 'skipped',
        cup: cup.letter,
        seats: own.length,
        skipped: left.length,
        ratherNot: left.filter(saysDislike).length,
        before: before.map(({ value }) => value).toSorted((a, b) => a - b),
      },
    ]
  })
}

function survival(servings: readonly AnsweredServing[], claims: readonly PlannedClaim[]): Beside[] {
  if (!servings.some(saysDislike)) return []
  const changed = claims.filter(
    ({ claim, byMargin, ifSkipsLowest: other }) => other && (other.claim !== claim || other.byMargin !== byMargin),
  )
  return [changed.length === 0 ? { code: 'skips-survive' } : { code: 'skips-decide', claims: changed }]
}

function firstCup(servings: readonly AnsweredServing[], answer: AcceptanceAnswer | null): Beside[] {
  const position = answer?.position
  const [first, ...later] = position?.means ?? []
  if (position?.p == null || position.p >= 1 - level || first === undefined || later.length === 0) return []
  const times = new Map<string, number>()
  for (const { cup, position: place, seat } of servings) {
    if (seat.takenAt === null) continue
    times.set(cup.trialId, (times.get(cup.trialId) ?? 0) + (place === 1 ? 1 : 0))
  }
  return [
    {
      code: 'first-cup',
      difference: first - later.reduce((sum, one) => sum + one, 0) / later.length,
      p: position.p,
      most: Math.max(...times.values()),
      least: Math.min(...times.values()),
    },
  ]
}

/** Each in words a café owner can repeat. */
export function sayBeside(one: Beside, name: (letter: string) => string): string {
  switch (one.code) {
    case 'cup-divides':
      return `${capital(name(one.cup))} divides its tasters: of ${one.tasters} who scored it, ${one.up} put it a point or more above their other cups and ${one.down} a point or more below (spread ${fixed(one.spread, 1)} points against ${fixed(one.usual, 1)}). A mean says little of such a cup.`
    case 'poured-twice': {
      const range = one.interval ? ` (95 % interval ${fixed(one.interval[0], 1)} to ${fixed(one.interval[1], 1)})` : ''
      return `${capital(name(one.cup))} was poured twice to ${one.tasters} tasters: the second pouring scored ${fixed(Math.abs(one.difference), 1)} points ${one.difference < 0 ? 'less' : 'more'}${range}, and one taster’s two scores lay ${fixed(one.gap, 1)} points apart on average. So far apart is the same drink.`
    }
    case 'skipped': {
      const why =
        one.ratherNot === 0 ? 'none because they would rather not' : `${one.ratherNot} because they would rather not`
      const before =
        one.before.length > 0 ? ` Scored before it was skipped, kept and not counted: ${one.before.join(', ')}.` : ''
      return `${one.skipped} of ${one.seats} skipped ${name(one.cup)}, ${why}.${before}`
    }
    case 'skips-survive':
      return 'If the cups that somebody would rather not drink counted as the lowest score, the verdict would be the same.'
    case 'skips-decide':
      return `If the cups that somebody would rather not drink counted as the lowest score, the verdict would not stand for ${one.claims.map(({ first, second }) => `${name(first)} and ${name(second)}`).join(', ')}.`
    case 'first-cup':
      return `A cup tasted first scored ${fixed(Math.abs(one.difference), 1)} points ${one.difference < 0 ? 'lower' : 'higher'} than one tasted later. ${
        one.most - one.least <= 1
          ? 'Every trial stood first equally often, so that favours none; it makes the intervals a little wider.'
          : `Trials stood first between ${one.least} and ${one.most} times, so it may favour some.`
      }`
  }
}

const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1)
