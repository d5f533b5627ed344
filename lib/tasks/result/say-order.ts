import 'server-only'
import { fixed } from '@/lib/base/number-format'
import type { RankResult, RankedCups } from './rank-result'
import { andList, capital, decideNow, otherGrounds, testAgain, type Verdict } from './say-verdict'

type Name = (letter: string) => string

/** What a panel of orders says, read off its first test and off pairs after Holm; DEVELOPERS.md has the table. */
export function sayOrder(rank: RankResult, name: Name): Verdict {
  const said = { numbers: sayNumbers(rank, name), margin: [] }
  if (rank.tasters === 0) return { ...said, sentence: sayNobody(rank), next: testAgain, told: 'nothing' }
  if (rank.tasters < rank.fewest) return { ...said, sentence: sayTooFew(rank), next: testAgain, told: 'nothing' }
  const told = rank.pairs.filter((pair) => pair.told)
  if (told.length === 0) return { ...said, sentence: sayNoneTold(rank, name), next: otherGrounds, told: 'cannot-tell' }
  const sentence = rank.best === null ? saySome(rank, told, name) : sayBest(rank, rank.best, name)
  return { ...said, sentence, next: decideNow, told: 'better' }
}

const sayNobody = ({ later }: RankResult) =>
  later.length > 0 ? 'No whole order is left that counts.' : 'Nobody put all the cups in order.'

function sayTooFew({ tasters, fewest, cups }: RankResult): string {
  const orders = tasters === 1 ? 'One whole order is' : `${tasters} whole orders are`
  return `${orders} too few to tell any two cups apart: with ${cups.length} cups it takes at least ${fewest}.`
}

/** “Most often put first” is said only of a cup that is, and that is told to stand above all others. */
function sayBest({ cups, tasters }: RankResult, best: string, name: Name): string {
  const firsts = (letter: string) => cups.find(({ cup }) => cup === letter)?.places[0] ?? 0
  const own = firsts(best)
  return cups.every(({ cup }) => cup === best || firsts(cup) < own)
    ? `Most often put first is ${name(best)}, by ${own} of ${tasters}; more put it above every other cup than chance would.`
    : `More put ${name(best)} above every other cup than chance would; first it was put by ${own} of ${tasters}.`
}

/** Whatever is told, with its numbers; then every pair that is not. */
function saySome({ pairs, cups }: RankResult, told: readonly RankedCups[], name: Name): string {
  const clauses = cups.flatMap(({ cup }) => {
    const below = told.filter(({ above }) => above === cup)
    if (below.length === 0) return []
    return [`${name(cup)} is put above ${andList(below.map((one) => `${name(one.below)} (${sayCount(one)})`))}`]
  })
  const untold = pairs.filter((one) => !one.told).map(({ above, below }) => `cup ${above} from cup ${below}`)
  return `No cup stands out from all others. ${capital(clauses.join('; '))}.${untold.length === 0 ? '' : ` This panel cannot tell ${untold.join(', nor ')}.`}`
}

const sayCount = ({ liked, likedOther }: RankedCups) => `${liked} of ${liked + likedOther}`

function sayNoneTold(rank: RankResult, name: Name): string {
  const needed = sayNeeded(rank)
  return rank.first?.differ
    ? `No cup stands out: the places differ by more than chance, but no two of the cups can be told apart.${needed}`
    : `No cup stands out: this panel cannot tell ${andList(
        rank.cups
          .map(({ cup }) => cup)
          .toSorted()
          .map(name),
      )} apart.${needed}`
}

/** Power belongs to the plan: it says what the panel could have found, and nothing about what it did not find. */
function sayNeeded({ needed, sought, tasters }: RankResult): string {
  const pair = `To tell a cup that ${sought} of 100 put above another, as planned,`
  return tasters >= needed
    ? ` ${pair} this panel was large enough, four times out of five.`
    : ` ${pair} it takes ${needed} whole orders.`
}

const sayP = (p: number) => (p < 0.001 ? 'p below 0.001' : `p = ${fixed(p, 3)}`)

function sayNumbers(rank: RankResult, name: Name): string[] {
  const { first, tasters, without, later } = rank
  return [
    ...(first === null ? [] : [sayFirst(first, tasters)]),
    ...(first?.differ ? [sayPairs(rank.pairs, name)] : []),
    ...(without > 0
      ? [`${without === 1 ? 'One seat was' : `${without} seats were`} taken and gave no whole order that counts.`]
      : []),
    ...(later.length > 0
      ? [
          `${later.length === 1 ? 'One order came from a seat that carries' : `${later.length} orders came from seats that carry`} the name of an earlier one. Only a person’s first counts; a later one is kept and not counted.`,
        ]
      : []),
  ]
}

function sayFirst({ by, chiSquared, df, p, differ }: NonNullable<RankResult['first']>, tasters: number): string {
  const orders = tasters === 1 ? 'one whole order' : `${tasters} whole orders`
  const test =
    by === 'exact'
      ? `Friedman’s exact test of ${orders}: ${sayP(p)}.`
      : `Friedman’s test of ${orders}, by chi-squared as the exact one is too large to count: ${fixed(chiSquared, 2)} on ${df} degrees of freedom, ${sayP(p)}.`
  return differ ? test : `${test} No pair is read: this test does not say that the cups differ.`
}

function sayPairs(pairs: readonly RankedCups[], name: Name): string {
  const clauses = pairs
    .toSorted((a, b) => (a.pHolm ?? 1) - (b.pHolm ?? 1))
    .map((one) => `${name(one.above)} above ${name(one.below)}, ${sayCount(one)}, ${sayP(one.pHolm ?? 1)}`)
  return `Exact sign test of each pair, after Holm over all ${pairs.length}: ${clauses.join('; ')}.`
}
