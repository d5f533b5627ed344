import 'server-only'
import { fixed } from '@/lib/base/number-format'
import type { ChoiceDesign } from '@/lib/panel/kinds/choice'
import { preferenceCounts } from '@/lib/stats/choice/preference'
import type { Interval } from '@/lib/stats/outcome'
import { tastersForPreference } from '@/lib/stats/plan/choice-power'
import { ALPHA, POWER } from '../plan/read-plan-figures'
import type { AnsweredServing, ResultCup } from './panel-answers'
import { decideNow, nameOf, otherGrounds, testAgain, type Verdict } from './say-verdict'
import { answeredSets, countedSets, type AnsweredSet } from './answered-sets'

/** What a panel of two cups found. Letters are those of the result; shares are of those who preferred one. */
export interface ChoiceResult {
  readonly kind: 'choice'
  /** the cup that more preferred; the first of the plan where as many preferred either */
  readonly cup: string
  readonly other: string
  readonly preferred: number
  readonly preferredOther: number
  /** without a preference; null where the plan did not offer it */
  readonly none: number | null
  readonly share: number | null
  /** exact (Clopper–Pearson) at 95 % */
  readonly interval: Interval | null
  /** the exact two-sided test of those who preferred one */
  readonly p: number | null
  /** how many of them it takes; null where no count is enough */
  readonly critical: number | null
  /** over all answers, where some did not prefer one */
  readonly trinomial: { readonly p: number; readonly net: number; readonly interval: Interval } | null
  /** seats whose answer is a person's second or later one: kept, and not counted */
  readonly later: readonly number[]
  /** tasters who prefer one that find the planned share, four times out of five */
  readonly needed: number
  /** the planned share, in percent */
  readonly sought: number
}

/**
 * Which of the two is preferred?
 *
 * @param later  seats whose answer does not count as it is a person's later one; kept from closing, as names go with time
 *
 * Source   ISO 5495, two-sided; Bian, McAleer & Wong (2011) beside it
 * Checked  test/integration/panel/choice-result.test.ts
 */
export function answerChoice(
  design: ChoiceDesign,
  servings: readonly AnsweredServing[],
  cups: readonly ResultCup[],
  later: readonly number[],
): { readonly choice: ChoiceResult; readonly verdict: Verdict } {
  const sets = countedSets(answeredSets(servings, cups), later)
  const chosen = (letter: string) => sets.filter(({ letters }) => letters?.[0] === letter).length
  const [first = '', second = ''] = cups.map(({ letter }) => letter)
  const [cup, other] = chosen(second) > chosen(first) ? [second, first] : [first, second]
  const [preferred, preferredOther] = [chosen(cup), chosen(other)]
  const none = sets.filter(({ letters }) => letters?.length === 0).length
  const found = preferenceCounts(
    { cup, other, preferred, none, total: preferred + preferredOther + none },
    { level: 1 - ALPHA },
  )
  const choice: ChoiceResult = {
    kind: 'choice',
    ...{ cup, other, preferred, preferredOther },
    none: design.none || none > 0 ? none : null,
    share: found.share,
    interval: found.intervalExact,
    p: found.pTwoSided,
    critical: found.criticalTwoSided,
    trinomial:
      found.pTrinomial === null || found.net === null
        ? null
        : { p: found.pTrinomial, net: found.net.estimate, interval: found.net.interval },
    later: [...later],
    needed: tastersForPreference({ share: design.share / 100, alpha: ALPHA }, { power: POWER }).n,
    sought: design.share,
  }
  return { choice, verdict: sayChoice(choice, sets, nameOf(cups)) }
}

/** Is a preference told? Read off the exact test and nothing else. */
function isTold({ p }: Pick<ChoiceResult, 'p'>): boolean {
  return p !== null && p <= ALPHA
}

function sayChoice(choice: ChoiceResult, sets: readonly AnsweredSet[], name: (letter: string) => string): Verdict {
  const n = choice.preferred + choice.preferredOther
  const said = { numbers: sayNumbers(choice, n, name), margin: [] }
  const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1)
  if (sets.length === 0)
    return { ...said, sentence: 'Nobody said which of the two they prefer.', next: testAgain, told: 'nothing' }
  if (n === 0)
    return {
      ...said,
      sentence: `Nobody preferred one of the two: ${sayNone(choice)}.`,
      next: otherGrounds,
      told: 'cannot-tell',
    }
  if (choice.critical === null)
    return {
      ...said,
      sentence: `${n === 1 ? 'One taster who preferred one is' : `${n} tasters who preferred one are`} too few to say which is preferred: it takes at least six.`,
      next: testAgain,
      told: 'nothing',
    }
  if (isTold(choice))
    return {
      ...said,
      sentence: `${capital(name(choice.cup))} is preferred to ${name(choice.other)}: by ${choice.preferred} of the ${n} who preferred one, ${sayShare(choice)}.`,
      next: decideNow,
      told: 'better',
    }
  return {
    ...said,
    sentence: `This panel cannot tell which is preferred: ${choice.preferred} of the ${n} who preferred one chose ${name(choice.cup)}, ${sayShare(choice)}.${sayNeeded(choice, n)}`,
    next: otherGrounds,
    told: 'cannot-tell',
  }
}

/** The interval is a plain one and may pass what can be: nobody leads by more than all. */
function sayLead({ trinomial }: ChoiceResult, cup: string): string {
  if (trinomial === null) return ''
  const { net, interval } = trinomial
  const [low, high] = interval.map((share) => percent(Math.max(-1, Math.min(1, share))))
  const lead = net === 0 ? 'neither leads' : `${cup} leads by ${percent(net)} in a hundred of all`
  return `${lead} (${low} to ${high}${net === 0 ? ' in a hundred' : ''})`
}

/** Power belongs to the plan: it says what the panel could have found, and nothing about what it did not find. */
function sayNeeded({ needed, sought }: ChoiceResult, n: number): string {
  const split = `${sought} to ${100 - sought}`
  return n >= needed
    ? ` For ${split}, as planned, this panel was large enough, four times out of five.`
    : ` For ${split}, as planned, it takes ${needed} who prefer one.`
}

function sayShare({ share, interval }: ChoiceResult): string {
  const between = interval ? ` (${percent(interval[0])} to ${percent(interval[1])} %)` : ''
  return `${percent(share ?? 0)} %${between}`
}

const percent = (share: number) => fixed(100 * share, 0)

const sayP = (p: number) => (p < 0.001 ? 'p below 0.001' : `p = ${fixed(p, 3)}`)

const sayNone = ({ none }: ChoiceResult) => `${none ?? 0} said “no preference”`

function sayNumbers(choice: ChoiceResult, n: number, name: (letter: string) => string): string[] {
  const { p, critical, trinomial, preferred, preferredOther, none, later, cup } = choice
  const all = preferred + preferredOther + (none ?? 0)
  return [
    ...(p === null
      ? []
      : [
          `Exact two-sided test of those who preferred one: ${preferred} to ${preferredOther}, ${sayP(p)}.${critical === null ? '' : ` Of ${n} it takes ${critical} for one of the two.`}`,
        ]),
    ...(trinomial === null
      ? []
      : [
          `${sayNone(choice)} of ${all}. With them counted, ${sayLead(choice, name(cup))}; trinomial test ${sayP(trinomial.p)}, shown beside: the sentence above rests on those who preferred one.`,
        ]),
    ...(later.length > 0
      ? [
          `${later.length === 1 ? 'One answer came from a seat that carries' : `${later.length} answers came from seats that carry`} the name of an earlier one. Only a person’s first answer counts; a later one is kept and not counted.`,
        ]
      : []),
  ]
}
