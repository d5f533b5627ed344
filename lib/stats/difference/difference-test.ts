import { demand } from '@/lib/base/demand'
import { checkLevel } from '../check-level'
import { criticalNumber } from './critical-number'
import { dPrimeError, dPrimeOf } from './d-prime'
import { binomialLower, binomialUpper } from '../distribution/binomial'
import { clopperPearson, clopperPearsonUpper } from '../interval'
import type { Answer, Interval } from '../outcome'
import { guessingShare, hasDirection, type Protocol } from './protocol'

export interface DifferenceAnswer extends Answer<'difference', { readonly tasters: number; readonly correct: number }> {
  readonly guessing: number
  readonly p: number
  readonly critical: number | null
  readonly proportionCorrect: number
  readonly distinguishing: { readonly estimate: number; readonly interval: Interval }
  readonly dPrime: {
    readonly estimate: number | null
    readonly se: number | null
    /** an end that no finite distance reaches is null */
    readonly interval: readonly [low: number | null, high: number | null]
  }
  readonly similarity: {
    readonly limit: number
    readonly p: number
    readonly upper: number
    readonly similar: boolean
  } | null
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
export function difference(readings: DifferenceReadings, options: { readonly level: number }): DifferenceAnswer {
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
    dPrime: { estimate, se: dPrimeError(protocol, share, total), interval: [low, high] },
    similarity,
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
