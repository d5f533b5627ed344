import 'server-only'
import { fixed } from '@/lib/base/number-format'
import type { Interval } from '@/lib/stats/outcome'
import type { Headline } from './headline'
import type { Needed } from './needed-tasters'
import type { Planned, ResultCup } from './panel-answers'
import type { PlannedClaim } from './planned-claims'

/** What the panel says, in sentences one can repeat, and what to do next. */
export interface Verdict {
  readonly sentence: string
  /** the numbers behind it, one sentence for each comparison that was planned */
  readonly numbers: readonly string[]
  /** not-worse and equivalence, where a margin was planned beside another question */
  readonly margin: readonly string[]
  readonly next: string
  /** better: something is told, and one can decide on it */
  readonly told: 'better' | 'cannot-tell' | 'nothing'
}

type Name = (letter: string) => string

export const decideNow = 'Decide: adopt a trial, keep the present one, or test again.'
export const otherGrounds =
  'Decide on other grounds, such as cost, or test again with more tasters. That the panel cannot tell does not show that the cups are equal.'
export const testAgain = 'Test again, with more tasters.'

export function sayVerdict(
  headline: Headline,
  cups: readonly ResultCup[],
  plan: Planned,
  needed: Needed | null,
): Verdict {
  const name = nameOf(cups)
  const compared = 'compared' in headline ? headline.compared : 'over' in headline ? headline.over : []
  const told = toldBy(headline)
  return {
    sentence: sayHeadline(headline, name, needed),
    numbers: compared.map((one) => sayNumbers(one, compared.length, plan, name)),
    margin:
      plan.margin === null || headline.code === 'as-good'
        ? []
        : compared.map((one) => capital(sayByMargin(one, plan.margin ?? 0, name))),
    next: told === 'better' ? decideNow : told === 'cannot-tell' ? otherGrounds : testAgain,
    told,
  }
}

function toldBy(headline: Headline): Verdict['told'] {
  switch (headline.code) {
    case 'best-alone':
    case 'some-better':
      return 'better'
    case 'beside-yardstick':
      return headline.compared.some(({ claim }) => claim === 'better' || claim === 'worse') ? 'better' : 'cannot-tell'
    case 'as-good':
      return headline.compared.some(isToldByMargin) ? 'better' : 'cannot-tell'
    case 'none-told':
    case 'never-varied':
      return 'cannot-tell'
    default:
      return 'nothing'
  }
}

const isToldByMargin = ({ claim, byMargin }: PlannedClaim) =>
  claim === 'better' || claim === 'worse' || !['second not worse', 'cannot tell', null].includes(byMargin)

export function sayHeadline(headline: Headline, name: Name, needed: Needed | null): string {
  switch (headline.code) {
    case 'nothing-scored':
      return 'Nobody scored any cup, so there is nothing to compare.'
    case 'one-cup-scored':
      return `Only ${name(headline.cup)} was scored, so there is nothing to compare it with.`
    case 'yardstick-unscored':
      return `${capital(andList(headline.cups.map(name)))} got no score, so the planned comparison cannot be made.`
    case 'too-few-tasters':
      return `${sayTasters(headline.tasters)} too few to say which cup is liked better: it takes at least six who scored the same cups.`
    case 'never-varied':
      return `Every score is ${fixed(headline.score, 0)}: nobody liked one cup better than another. This panel ${cannotTell(headline.compared, name)}.`
    case 'best-alone':
      return sayBestAlone(headline.best, headline.over, name)
    case 'some-better':
      return saySomeBetter(headline.compared, name)
    case 'none-told':
      return `This panel cannot tell ${andList(headline.cups.map(name))} apart.${sayNeeded(needed, headline.compared)}`
    case 'beside-yardstick': {
      const told = headline.compared.some(({ claim }) => claim === 'better' || claim === 'worse')
      return `${sayBeside(headline.compared, name)}${told ? '' : sayNeeded(needed, headline.compared)}`
    }
    case 'as-good': {
      const told = headline.compared.some(isToldByMargin)
      const lines = headline.compared.map((one) => capital(sayByMargin(one, headline.margin, name)))
      return `${lines.join(' ')}${told ? '' : sayNeeded(needed, headline.compared)}`
    }
  }
}

const sayTasters = (n: number) => (n === 0 ? 'No taster is' : n === 1 ? 'One taster is' : `${n} tasters are`)

function sayBestAlone(best: string, over: readonly PlannedClaim[], name: Name): string {
  const [nearest, ...others] = over
  if (!nearest) return `${capital(name(best))} is liked better.`
  if (others.length === 0) return `${capital(sayBetter(nearest, name))}.`
  const least = Math.min(...over.map(({ interval }) => interval?.[0] ?? 0))
  const by = points(least)
  return `${capital(name(best))} is liked better than every other cup${by ? `, by at least ${by}` : ''}.`
}

/** Whatever is told, each with its own range; then every pair that is not. */
function saySomeBetter(compared: readonly PlannedClaim[], name: Name): string {
  const told = compared.filter(({ claim }) => claim === 'better' || claim === 'worse')
  const clauses = told.map((one) => (one.claim === 'better' ? sayBetter(one, name) : sayWorse(one, name)))
  return [`${capital(clauses.join('; '))}.`, ...sayUntold(compared, name)].join(' ')
}

function sayBeside(compared: readonly PlannedClaim[], name: Name): string {
  const better = compared.filter(({ claim }) => claim === 'better').map((one) => sayBetter(one, name))
  const worse = compared.filter(({ claim }) => claim === 'worse').map((one) => sayWorse(one, name))
  const clauses = [...better, ...worse]
  return [...(clauses.length > 0 ? [`${capital(clauses.join('; '))}.`] : []), ...sayUntold(compared, name)].join(' ')
}

function sayUntold(compared: readonly PlannedClaim[], name: Name): string[] {
  const untold = compared.filter(({ claim }) => claim === 'cannot tell')
  const few = compared.filter(({ claim }) => claim === 'too few tasters')
  return [
    ...(untold.length > 0 ? [`This panel ${cannotTell(untold, name)}.`] : []),
    ...(few.length > 0 ? [`Too few tasters scored both ${orList(few.map((one) => both(one, name)))} to say.`] : []),
  ]
}

const both = ({ first, second }: PlannedClaim, name: Name) => `${name(first)} and ${name(second)}`

function cannotTell(untold: readonly PlannedClaim[], name: Name): string {
  const seconds = [...new Set(untold.map(({ second }) => second))]
  const clauses = seconds.map((second) => {
    const firsts = untold.filter((one) => one.second === second).map(({ first }) => name(first))
    return `${andList(firsts)} from ${name(second)}`
  })
  return `cannot tell ${orList(clauses)}`
}

const sayBetter = (one: PlannedClaim, name: Name) =>
  `${name(one.first)} is liked better than ${name(one.second)}${by(one.interval)}`
const sayWorse = (one: PlannedClaim, name: Name) =>
  `${name(one.first)} is liked less than ${name(one.second)}${by(one.interval && [-one.interval[1], -one.interval[0]])}`

/** One planned comparison beside the margin: claim at the level, margin at its own, as the table in DEVELOPERS.md has it. */
export function sayByMargin(one: PlannedClaim, margin: number, name: Name): string {
  const { claim, byMargin } = one
  const first = name(one.first)
  const second = name(one.second)
  const m = points(margin) || `${fixed(margin, 2)} points`
  switch (byMargin) {
    case null:
      return `too few tasters scored both ${first} and ${second} to say whether it is as good.`
    case 'better by the margin':
      return `${first} is liked better than ${second} by more than ${m}.`
    case 'as good':
      if (claim === 'better') return `${first} is as good as ${second}: it is liked better, by less than ${m}.`
      if (claim === 'worse') return `${first} is as good as ${second}: it is liked less, but by less than ${m}.`
      return `${first} is as good as ${second}: they differ by less than ${m}.`
    case 'not worse':
      return claim === 'better'
        ? `${first} is at least as good as ${second}: it is liked better${by(one.interval)}.`
        : `${first} is at least as good as ${second}: if it is liked less at all, then by less than ${m}.`
    case 'worse by the margin':
      return `${first} is not as good as ${second}: it is liked less, by more than ${m}.`
    case 'second not worse':
      return claim === 'worse'
        ? `${first} is liked less than ${second}${by(one.interval && [-one.interval[1], -one.interval[0]])}; whether by ${m} or more this panel cannot tell.`
        : `whether ${first} is as good as ${second}, or liked less by ${m} or more, this panel cannot tell.`
    case 'cannot tell':
      return `whether ${first} is as good as ${second}, or liked less by ${m} or more, this panel cannot tell.`
  }
}

function sayNumbers(one: PlannedClaim, family: number, plan: Planned, name: Name): string {
  const joint = family > 1 ? `joint 95 % interval, over ${family} comparisons, ` : '95 % interval '
  const range = one.interval ? ` (${joint}${between(one.interval)})` : ''
  const wide =
    plan.margin !== null && one.marginInterval
      ? `; read beside the margin at 90 %, five per cent each side: ${between(one.marginInterval)}`
      : ''
  const seen = `${one.preferFirst} of ${one.tasters} who scored both scored the first higher, ${one.preferSecond} the second, ${one.tied} gave both the same`
  return `${capital(name(one.first))} less ${name(one.second)}: ${fixed(one.difference, 2)} points${range}${wide}. ${capital(seen)}.`
}

const between = ([low, high]: Interval) => `${fixed(low, 2)} to ${fixed(high, 2)}`

/** Power belongs to the plan: it says what the panel could have found, and nothing about what it did not find. */
function sayNeeded(needed: Needed | null, compared: readonly PlannedClaim[]): string {
  if (!needed) return ''
  const sought =
    needed.for === 'margin'
      ? `To show it within ${points(needed.difference)} where they are alike, as planned,`
      : `To find a difference of ${points(needed.difference)}, as planned,`
  const had = Math.min(...compared.map(({ tasters }) => tasters))
  const about =
    needed.least === needed.most
      ? `about ${needed.tasters}`
      : `about ${needed.tasters} (${needed.least} to ${needed.most})`
  return had >= needed.most
    ? ` ${sought} this panel was large enough, four times out of five.`
    : ` ${sought} it takes ${about} tasters with this panel’s spread.`
}

function by(interval: Interval | null): string {
  if (!interval) return ''
  const [low, high] = interval
  const most = Math.min(high, 8) // the scale is eight points long
  const digits = Number(fixed(low, 1)) === 0 ? 2 : 1
  return Number(fixed(low, digits)) === 0
    ? `, by up to ${fixed(most, 1)} points`
    : `, by ${fixed(low, digits)} to ${fixed(most, digits)} points`
}

/** "0.4 points"; empty where it would read as nothing. */
function points(value: number): string {
  const digits = Number(fixed(value, 1)) === 0 ? 2 : 1
  const text = fixed(value, digits)
  if (Number(text) === 0) return ''
  return `${text} ${value === 1 ? 'point' : 'points'}`
}

export function nameOf(cups: readonly ResultCup[]): Name {
  return (letter) => {
    const cup = cups.find((one) => one.letter === letter)
    if (!cup) return `cup ${letter}`
    return cup.isHouse ? `the house recipe (cup ${letter})` : `cup ${letter} (${cup.name})`
  }
}

export const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1)
const list = (words: readonly string[], last: string) =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`
export const andList = (words: readonly string[]) => list(words, 'and')
const orList = (words: readonly string[]) => list(words, 'nor')
