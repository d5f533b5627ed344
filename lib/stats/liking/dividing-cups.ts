import { byLabel } from '../label-order'
import { median, sampleDeviation } from '../describe'
import type { AcceptanceRow } from './acceptance-row'

/** A cup that some tasters like much better than the others they had, and some much less. */
export interface DividingCup {
  readonly cup: string
  /** who scored it and at least two other cups */
  readonly tasters: number
  /** at least a point above the mean of the taster's other cups, and at least a point below it */
  readonly up: number
  readonly down: number
  /** standard deviation over tasters of the cup less the taster's other cups, points */
  readonly spread: number
  /** the median of the same for the other cups */
  readonly usual: number
}

const FEWEST = 6
const A_POINT = 1
const WIDER = 1.6
const PART = 0.25

/**
 * Which cups divide the tasters?
 *
 * Each taster's score of a cup less the mean of their other cups; a cup divides when these spread 1.6 times as wide as the
 * median of the other cups, a quarter of its tasters lie a point or more above, and a quarter a point or more below.
 *
 * @param rows  in any order; repeats of a taster and cup are averaged
 * @returns     widest first; none below three cups or six tasters
 *
 * Source   our own rule, no source: it describes, and claims nothing
 * Checked  test/unit/stats/liking/dividing-cups.test.ts
 */
export function dividingCups(rows: readonly AcceptanceRow[]): readonly DividingCup[] {
  const own = tasterMeans(rows)
  const cups = [...new Set(rows.map(({ cup }) => cup))].sort(byLabel)
  const found = cups.flatMap((cup) => {
    const apart = [...own.values()].flatMap((scores) => apartFrom(scores, cup))
    return apart.length < FEWEST ? [] : [{ cup, apart, spread: sampleDeviation(apart) }]
  })
  return found
    .flatMap(({ cup, apart, spread }): DividingCup[] => {
      const others = found.filter((one) => one.cup !== cup).map((one) => one.spread)
      if (others.length < 2) return []
      const usual = median(others)
      const up = apart.filter((by) => by >= A_POINT).length
      const down = apart.filter((by) => by <= -A_POINT).length
      const divides = spread > WIDER * usual && Math.min(up, down) >= PART * apart.length
      return divides ? [{ cup, tasters: apart.length, up, down, spread, usual }] : []
    })
    .toSorted((one, two) => two.spread - one.spread)
}

function tasterMeans(rows: readonly AcceptanceRow[]): ReadonlyMap<string, ReadonlyMap<string, number>> {
  const sums = new Map<string, Map<string, { sum: number; n: number }>>()
  for (const { taster, cup, score } of rows) {
    if (score === null) continue
    const cups = sums.get(taster) ?? new Map<string, { sum: number; n: number }>()
    const { sum, n } = cups.get(cup) ?? { sum: 0, n: 0 }
    sums.set(taster, cups.set(cup, { sum: sum + score, n: n + 1 }))
  }
  return new Map(
    [...sums].map(([taster, cups]) => [taster, new Map([...cups].map(([cup, { sum, n }]) => [cup, sum / n]))]),
  )
}

function apartFrom(scores: ReadonlyMap<string, number>, cup: string): number[] {
  const score = scores.get(cup)
  const others = [...scores].flatMap(([other, value]) => (other === cup ? [] : [value]))
  if (score === undefined || others.length < 2) return []
  return [score - others.reduce((sum, value) => sum + value, 0) / others.length]
}
