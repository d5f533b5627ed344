import 'server-only'
import { fixed } from '@/lib/base/number-format'
import { binomialLower } from '@/lib/stats/distribution/binomial'
import { ALPHA } from '../plan/read-plan-figures'
import type { DifferenceResult } from './difference-answer'
import { decideNow, otherGrounds, testAgain, type Verdict } from './say-verdict'

type Name = (letter: string) => string

const percent = (share: number) => fixed(100 * share, 0)
/** No share of people lies below nothing or above all, whatever an interval reaches. */
const shareOf = (share: number) => percent(Math.min(1, Math.max(0, share)))
const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1)
const sayP = (p: number) => (p < 0.001 ? 'p below 0.001' : `p = ${fixed(p, 3)}`)

const mayDiffer =
  'Take it that some can tell, decide on other grounds, or test again with more tasters. That it is not shown that few can tell does not show that many can.'

/**
 * The sentence that answers the aim, and what is behind it. “Not shown to differ” is never “the same”.
 *
 * Checked  test/integration/panel/difference-result.test.ts
 */
export function sayDifference(found: DifferenceResult, name: Name): Verdict {
  const said = { numbers: found.tasters === 0 ? sayLeftOut(found) : sayNumbers(found), margin: [] }
  if (found.tasters === 0 || found.p === null)
    return { ...said, sentence: sayNobody(found), next: testAgain, told: 'nothing' }
  return { ...said, ...(found.similarity ? sayAlike(found, name) : sayDiffer(found, found.p, name)) }
}

const sayNobody = ({ incomplete, later }: DifferenceResult) =>
  later.length > 0
    ? 'No answers are left that count, so there is nothing to say.'
    : incomplete.length === 0
      ? 'Nobody answered, so there is nothing to say.'
      : 'Nobody answered as often as planned, so there is nothing to say.'

/** “14 of 24 answers were right, where luck gives about 8” */
function sayRight({ right, answers, guessing }: DifferenceResult): string {
  return `${right} of ${answers} ${answers === 1 ? 'answer was' : 'answers were'} right, where luck gives about ${fixed(answers * guessing, 0)}`
}

function sayPair({ cup, other }: DifferenceResult, name: Name): string {
  return `${name(cup)} from ${name(other)}`
}

function sayTelling({ telling }: DifferenceResult): string {
  if (!telling) return ''
  const between = telling.interval ? ` (${shareOf(telling.interval[0])} to ${shareOf(telling.interval[1])} %)` : ''
  return `About ${shareOf(telling.estimate)} % of tasters can really tell${between}.`
}

type Said = Pick<Verdict, 'sentence' | 'next' | 'told'>

function sayDiffer(found: DifferenceResult, p: number, name: Name): Said {
  const { critical, property, cup, other, answers } = found
  if (critical === null)
    return {
      sentence: `${capital(sayAnswers(answers))} too few to show a difference, whatever the answers are.`,
      next: testAgain,
      told: 'nothing',
    }
  if (p <= ALPHA) {
    const what =
      property === null
        ? `Tasters can tell ${sayPair(found, name)}`
        : `Tasters find ${name(cup)} ${property} than ${name(other)}`
    return { sentence: `${what}: ${sayRight(found)}. ${sayTelling(found)}`, next: decideNow, told: 'better' }
  }
  const what =
    property === null
      ? `${capital(name(cup))} and ${name(other)} are not shown to differ`
      : `It is not shown that ${name(cup)} is ${property} than ${name(other)}`
  return {
    sentence: `${what}: ${sayRight(found)}, and it takes ${critical}. That is not the same as alike${sayAtMost(found, name)}.${sayNeeded(found)}`,
    next: otherGrounds,
    told: 'cannot-tell',
  }
}

const sayAnswers = (n: number) => (n === 1 ? 'one answer is' : `${n} answers are`)

/** What a panel that did not find it leaves open. */
function sayAtMost({ telling, property, cup }: DifferenceResult, name: Name): string {
  const high = telling?.interval?.[1]
  if (high === undefined || high <= 0) return ''
  // one direction was asked: who finds the other cup sweeter is in no upper end
  const what = property === null ? 'be able to tell' : `find ${name(cup)} ${property}`
  return `: up to ${shareOf(high)} % may ${what}`
}

/** Power belongs to the plan: it says what the panel could have found, and nothing about what it did not find. */
function sayNeeded({ needed, sought, tasters, aim }: DifferenceResult): string {
  const what =
    aim === 'differ'
      ? `To find that ${sought} % can tell, as planned,`
      : `To show it where nobody can tell, as planned,`
  if (needed === null) return ''
  return tasters >= needed
    ? ` ${what} this panel was large enough, four times out of five.`
    : ` ${what} it takes ${needed} tasters.`
}

function sayAlike(found: DifferenceResult, name: Name): Said {
  const { similarity, sought, answers, p } = found
  const some = p !== null && p <= ALPHA ? ` That some can tell is shown as well (${sayP(p)}).` : ''
  if (!similarity || similarity.most === null)
    return {
      sentence: `${capital(sayAnswers(answers))} too few to show that fewer than ${sought} % can tell ${sayPair(found, name)}, whatever the answers are.${some}`,
      next: testAgain,
      told: 'nothing',
    }
  const upper = percent(similarity.upper)
  // luck alone leaves more right: something in the serving or the asking turned answers round
  if (isBelowLuck(found))
    return {
      sentence: `It is not shown that few can tell ${sayPair(found, name)}: ${sayRight(found)}. So few are right that luck does not explain it: look for a fault in how it was served or asked.`,
      next: mayDiffer,
      told: 'cannot-tell',
    }
  if (similarity.shown)
    return {
      sentence: `Few can tell ${sayPair(found, name)}: fewer than the planned ${sought} %, at most ${upper} % at 95 %. ${capital(sayRight(found))}. That does not make them the same.${some}`,
      next: decideNow,
      told: 'better',
    }
  return {
    sentence: `It is not shown that few can tell ${sayPair(found, name)}: ${sayRight(found)}, and it takes at most ${similarity.most} right. As many as ${upper} % may be able to tell, and few is fewer than ${sought} %.${some}${sayNeeded(found)}`,
    next: mayDiffer,
    told: 'cannot-tell',
  }
}

function sayNumbers(found: DifferenceResult): string[] {
  const { p, critical, answers, tasters, each, similarity, right, guessing, property, mask } = found
  const luck = guessing === 0.5 ? 'one in two' : 'one in three'
  const takes = critical === null ? '' : ` Of ${answers} it takes ${critical}.`
  return [
    ...(p === null
      ? []
      : [`Exact one-sided test against luck, ${luck}: ${right} of ${answers} right, ${sayP(p)}.${takes}`]),
    ...(similarity
      ? [
          `Exact one-sided test that fewer than ${percent(similarity.bound)} % can tell: ${sayP(similarity.p)}; the exact upper limit is ${fixed(100 * similarity.upper, 1)} %.`,
        ]
      : []),
    ...sayDistance(found),
    ...(each > 1
      ? [
          `${tasters} tasters gave ${each} answers each. The test takes all ${answers}: where nobody can tell they are independent, so that it keeps its level. The share who can tell comes from the tasters’ own shares, for one taster’s answers hang together.`,
        ]
      : []),
    ...(property !== null && isBelowLuck(found)
      ? [
          `Fewer were right than luck gives: the other cup may be ${property}. The plan asked one direction only, so that is for another panel.`,
        ]
      : []),
    ...(mask === null
      ? []
      : [`What could be seen was planned to be hidden: ${mask}. Whether it was, no number shows.`]),
    ...sayLeftOut(found),
  ]
}

/** Were so few right that luck does not explain it? Of a property it may go the other way: that is only pointed out. */
function isBelowLuck({ right, answers, guessing }: DifferenceResult): boolean {
  return binomialLower(right, answers, guessing) <= ALPHA / 2
}

function sayDistance({ dPrime }: DifferenceResult): string[] {
  if (!dPrime) return []
  const { estimate, interval } = dPrime
  if (estimate === null) return ['d′, how far apart they lie, has no finite value: all or none were right.']
  const end = (value: number | null, none: string) => (value === null ? none : fixed(value, 2))
  const between = interval ? ` (${end(interval[0], 'no lower end')} to ${end(interval[1], 'no upper end')})` : ''
  return [`d′, how far apart they lie in units of one taster’s own wavering: ${fixed(estimate, 2)}${between}.`]
}

function sayLeftOut({ later, incomplete, each }: DifferenceResult): string[] {
  return [
    ...(incomplete.length > 0
      ? [
          `${incomplete.length === 1 ? 'One seat' : `${incomplete.length} seats`} gave fewer than the ${each} answers planned. The same number is asked from everyone, so what ${incomplete.length === 1 ? 'it' : 'they'} gave is kept and not counted.`,
        ]
      : []),
    ...(later.length > 0
      ? [
          `${later.length === 1 ? 'One seat carries' : `${later.length} seats carry`} the name of an earlier one. Only a person’s first answers count; later ones are kept and not counted.`,
        ]
      : []),
  ]
}
