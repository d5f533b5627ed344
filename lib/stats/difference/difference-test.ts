import { demand } from '@/lib/base/demand'
import { checkLevel } from '../check-level'
import { criticalNumber } from './critical-number'
import { dPrimeError, dPrimeOf, shareError } from './d-prime'
import { binomialLower, binomialUpper } from '../distribution/binomial'
import { clopperPearson, clopperPearsonUpper } from '../interval'
import { pairedDifference } from '../liking/paired-difference'
import type { Answer, Interval } from '../outcome'
import { guessingShare, hasDirection, type Protocol } from './protocol'

export interface DifferenceAnswer extends Answer<
  'difference',
  { readonly tasters: number; readonly correct: number; readonly answers?: number }
> {
  readonly guessing: number
  readonly p: number
  readonly critical: number | null
  readonly proportionCorrect: number
  readonly distinguishing: { readonly estimate: number; readonly interval: Interval | null }
  readonly dPrime: {
    readonly estimate: number | null
    readonly se: number | null
    /** an end that no finite distance reaches is null; null as a whole where tasters gave several answers */
    readonly interval: readonly [low: number | null, high: number | null] | null
  }
  readonly similarity: {
    readonly limit: number
    readonly p: number
    readonly upper: number
    readonly similar: boolean
  } | null
}

/** With one answer from each taster every interval is there. */
export type OneAnswerEach = DifferenceAnswer & {
  readonly distinguishing: { readonly interval: Interval }
  readonly dPrime: { readonly interval: readonly [low: number | null, high: number | null] }
}

/** What was seen: `total` tasters, one trial each; `limit` asks for similarity. */
export interface DifferenceReadings {
  readonly protocol: Protocol
  readonly correct: number
  readonly total: number
  /** share of tasters who can tell that should be ruled out, 0 < limit < 1 */
  readonly limit?: number | undefined
}

/**
 * Can tasters tell the two cups apart, how many of them, and by how much do the cups differ?
 *
 *     p = P(X ≥ x), X binomial with n and the guessing share g;   distinguishing = (x/n − g) / (1 − g)
 *     d-prime solves P(d) = x/n;   similarity: P(X ≤ x) at g + (1 − g)·limit
 *
 * @param readings  counts and protocol
 * @param options   level, 0 < level < 1; the test is at 1 − level
 * @returns         intervals from Clopper and Pearson's of the share right, cut at guessing for triangle, duo-trio, tetrad
 * @throws RangeError  counts not whole or out of range, a protocol not known, level or limit outside (0, 1)
 *
 * Source   ISO 4120, ISO 10399, ISO 5495; Bi, Ennis and O'Mahony (1997); ASTM E3009
 * Checked  test/reference/difference-test.test.ts
 * Limits   one trial per taster: repeated trials by one taster are not independent
 */
export function difference(readings: DifferenceReadings, options: { readonly level: number }): OneAnswerEach {
  const { protocol, correct, total, limit } = readings
  const { level } = options
  checkLevel(level)
  demand(Number.isInteger(total) && total >= 1, `the number of tasters must be a whole number from 1, got ${total}`)
  demand(
    Number.isInteger(correct) && correct >= 0 && correct <= total,
    `the number correct must be a whole number from 0 to ${total}, got ${correct}`,
  )
  const guessing = guessingShare(protocol)
  const share = correct / total
  const critical = criticalNumber(total, guessing, 1 - level)
  const range = clopperPearson(correct, total, level)
  const estimate = dPrimeOf(protocol, share)
  const low = dPrimeOf(protocol, range[0])
  const high = dPrimeOf(protocol, range[1])
  const telling = (right: number) => {
    const told = (right - guessing) / (1 - guessing)
    return hasDirection(protocol) ? told : Math.max(0, told)
  }
  const similarity = limit === undefined ? null : similarityOf(correct, total, guessing, limit, level)

  return {
    verb: 'difference',
    level,
    counts: { tasters: total, correct },
    method:
      `${protocol}: exact binomial test, one-sided, against a guessing share of ${guessing === 0.5 ? '1/2' : '1/3'}; ` +
      'intervals from the exact (Clopper–Pearson) interval of the share correct; standard error of d-prime by the delta method',
    notes: notesOf(readings, critical, guessing, level),
    guessing,
    p: binomialUpper(correct - 1, total, guessing),
    critical,
    proportionCorrect: share,
    distinguishing: { estimate: telling(share), interval: [telling(range[0]), telling(range[1])] },
    dPrime: { estimate, se: dPrimeError(protocol, share, shareError(share, total)), interval: [low, high] },
    similarity,
  }
}

/**
 * The same where each taster gave several answers.
 *
 *     under luck alone nobody can tell, so all answers are independent: p and critical over all of them;
 *     the share who can tell: mean and t interval, n − 1 df, of the tasters' own shares
 *     d-prime's standard error: that of the mean of these shares, by the delta method
 *
 * @param right  how many of each taster's answers were right; `each` answers from every taster, at least 2
 * @throws RangeError  a count that is not whole or beyond `each`
 *
 * Source   Meyners and Brockhoff (2003), Food Quality and Preference 14, 355–364, for the test; Student's t for the shares;
 *          tasters as clusters: Bell and McCaffrey (2002), Survey Methodology 28(2), 169–181
 * Checked  test/reference/repeated-answers.test.ts
 * Limits   nothing is said of d-prime's interval or of similarity: both take tasters to be alike
 */
export function differenceOfTasters(
  readings: { readonly protocol: Protocol; readonly right: readonly number[]; readonly each: number },
  options: { readonly level: number },
): DifferenceAnswer {
  const { protocol, right, each } = readings
  const tasters = right.length
  demand(Number.isInteger(each) && each >= 2, `several answers are at least 2, got ${each}`)
  for (const count of right)
    demand(
      Number.isInteger(count) && count >= 0 && count <= each,
      `right answers must be from 0 to ${each}, got ${count}`,
    )
  const correct = right.reduce((sum, count) => sum + count, 0)
  const all = difference({ protocol, correct, total: tasters * each }, options)
  const shares = Float64Array.from(right, (count) => (count / each - all.guessing) / (1 - all.guessing))
  const { interval, se } = pairedDifference(shares, options.level, 0)
  // tasters who all got as many right do not show how far tasters differ
  const error = interval === null || se === null ? null : se * (1 - all.guessing)
  const cut = (value: number) => (hasDirection(protocol) ? value : Math.max(0, value))
  return {
    ...all,
    counts: { tasters, correct, answers: tasters * each },
    method:
      `${protocol}: exact binomial test over all ${tasters * each} answers, ${each} from each taster, one-sided, against a guessing share of ` +
      `${all.guessing === 0.5 ? '1/2' : '1/3'}; share who can tell from the tasters’ own shares, t on ${tasters - 1} degrees of freedom; standard error of d-prime from these shares by the delta method`,
    notes: [
      ...all.notes.filter((note) => !note.startsWith('Everybody') && !note.startsWith('Nobody')),
      `${each} answers from each taster: no interval of d-prime, and no similarity, for both take tasters to be alike`,
      ...(interval === null
        ? [
            'no interval of the share who can tell, no standard error of d-prime: the tasters’ shares do not differ, or there is one taster',
          ]
        : []),
    ],
    distinguishing: {
      estimate: all.distinguishing.estimate,
      interval: interval && [cut(interval[0]), cut(interval[1])],
    },
    dPrime: {
      estimate: all.dPrime.estimate,
      se: error === null ? null : dPrimeError(protocol, all.proportionCorrect, error),
      interval: null,
    },
    similarity: null,
  }
}

function similarityOf(correct: number, total: number, guessing: number, limit: number, level: number) {
  demand(limit > 0 && limit < 1, `the limit of the share who can tell must lie between 0 and 1, got ${limit}`)
  const p = binomialLower(correct, total, guessing + (1 - guessing) * limit)
  const upper = (clopperPearsonUpper(correct, total, level) - guessing) / (1 - guessing)
  return { limit, p, upper: Math.max(0, upper), similar: p <= (1 - level) * (1 + 1e-12) }
}

function notesOf(readings: DifferenceReadings, critical: number | null, guessing: number, level: number): string[] {
  const { protocol, correct, total, limit } = readings
  const notes: string[] = []
  if (critical === null) {
    notes.push(`With ${total} tasters no count can reach significance at level ${level}: critical is null.`)
  }
  if (correct === total) notes.push('Everybody was correct: d-prime has no finite estimate, only a lower limit.')
  if (correct === 0 && hasDirection(protocol)) {
    notes.push('Nobody was correct: d-prime has no finite estimate, only an upper limit.')
  }
  if (correct > 0 && correct / total <= guessing && !hasDirection(protocol)) {
    notes.push('At or below guessing d-prime is 0 and has no standard error.')
  }
  if (correct === 0 && !hasDirection(protocol))
    notes.push('Nobody was correct: d-prime is 0 and has no standard error.')
  if (limit !== undefined && correct < guessing * total) {
    notes.push('Fewer correct than guessing gives: look for a fault in the serving before calling the cups similar.')
  }
  return notes
}
