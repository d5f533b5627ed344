import { agreement } from '@/lib/stats/liking/agreement'
import type { Verb } from '../verb'

export const verb: Verb = {
  about: 'whether the tasters agree about the cups, with each other and with themselves',
  file: { needed: ['taster', 'cup', 'score'], most: { taster: 2000, cup: 50 }, oneAttribute: true },
  options: { values: {} },
  answer({ options, table }) {
    return agreement(
      (table?.rows ?? []).map((row) => ({
        taster: row.label('taster'),
        cup: row.label('cup'),
        score: row.number('score'),
      })),
      { level: options.level() },
    )
  },
}
