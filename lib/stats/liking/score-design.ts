import { lost } from '@/lib/base/lost'
import type { ScoreTable } from './score-table'
import type { DesignRows } from '../model/variance-strata'

/** Which fixed effects stand beside the cup. */
export interface Terms {
  readonly position: boolean
  readonly carryOver: boolean
}

/** Where each factor's columns begin in a design row: intercept, cups, sessions, positions, cup before. */
export interface ScoreDesign extends DesignRows {
  readonly cups: number
  readonly sessions: number
  readonly positions: number
  readonly previous: number
  /** the first column of each factor */
  readonly from: {
    readonly cup: number
    readonly session: number
    readonly position: number
    readonly previous: number
  }
}

/**
 * What row of explanatory columns belongs to each score?
 *
 * Treatment coding: the first level of cup, session and position is the base. The cup tasted before is coded to sum to
 * zero (the first cup takes −1 in every column) and is 0 throughout for a serving that had none before it.
 *
 * @returns rows without an unknown position or cup before where those terms are asked for
 *
 * Source   Jones and Kenward (2014), Design and Analysis of Cross-Over Trials, 3rd ed., chapter 5 (carry-over).
 * Checked  test/unit/stats/liking/score-design.test.ts
 */
export function scoreDesign(table: ScoreTable, terms: Terms): ScoreDesign {
  const cups = table.cups.length
  const sessions = Math.max(1, table.sessions.length)
  const positions = terms.position ? table.positions.length : 1
  const previous = terms.carryOver ? cups : 1
  const cup = 1
  const session = cup + cups - 1
  const position = session + sessions - 1
  const before = position + positions - 1
  const width = before + previous
  const kept = keptRows(table, terms)

  const rows = new Float64Array(kept.length * width)
  for (let place = 0; place < kept.length; place++) {
    const row = kept[place] ?? lost()
    const at = place * width - 1
    rows[at + 1] = 1
    const [cupLevel = 0, sessionLevel = 0, positionLevel = 0] = [
      table.cupOf[row],
      table.sessionOf[row],
      table.positionOf[row],
    ]
    if (cupLevel > 0) rows[at + cup + cupLevel] = 1
    if (sessionLevel > 0) rows[at + session + sessionLevel] = 1
    if (terms.position && positionLevel > 0) rows[at + position + positionLevel] = 1
    if (terms.carryOver) {
      const last = table.previousOf[row] ?? -1
      if (last === 0) rows.fill(-1, at + before + 1, at + width)
      else if (last > 0) rows[at + before + last] = 1
    }
    rows[at + width] = table.score[row] ?? lost()
  }
  return {
    rows,
    width,
    tasterOf: kept.map((row) => table.tasterOf[row] ?? lost()),
    cupOf: kept.map((row) => table.cupOf[row] ?? lost()),
    cups,
    sessions,
    positions,
    previous,
    from: { cup, session, position, previous: before },
  }
}

function keptRows(table: ScoreTable, terms: Terms): Int32Array {
  const all = new Int32Array(table.score.length)
  for (let row = 0; row < all.length; row++) all[row] = row
  if (!terms.position && !terms.carryOver) return all
  return all.filter((row) => {
    return (table.positionOf[row] ?? -1) >= 0 && (!terms.carryOver || (table.previousOf[row] ?? -2) >= -1)
  })
}
