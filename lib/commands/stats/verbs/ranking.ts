import { ranking } from '@/lib/stats/rank/ranking'
import { checkCups } from '../known-label'
import { checkOnce } from '../once'
import { checkPatchwork } from '../size-limits'
import type { Verb } from '../verb'

export const verb: Verb = {
  about: 'in which order the cups are liked, and whether that is more than chance',
  file: { needed: ['taster', 'cup', 'rank'], most: { taster: 2000, cup: 50 }, oneAttribute: true },
  options: {
    values: {
      order: 'A,B,C: the order expected beforehand, most liked first',
    },
  },
  answer({ options, table }) {
    const rows = table?.rows ?? []
    const order = options
      .text('order')
      ?.split(',')
      .map((cup) => cup.trim())
    if (table && order) checkCups(table, 'order', order)
    checkOnce(rows, 'rank', (row) => (row.text('rank') === null ? null : [row.label('taster'), row.label('cup')]))
    if (table) checkPatchwork(table)
    return ranking(
      rows.map((row) => ({ taster: row.label('taster'), cup: row.label('cup'), rank: row.number('rank') })),
      { level: options.level(), ...(order ? { order } : {}) },
    )
  },
}
