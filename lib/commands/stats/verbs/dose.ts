import { dose } from '@/lib/stats/dose/dose'
import type { Verb } from '../verb'

export const verb: Verb = {
  about: 'which dose is liked most, and how sure that is',
  file: { needed: ['taster', 'dose', 'score'], most: { dose: 100 }, oneAttribute: true },
  options: { values: {} },
  answer({ options, table }) {
    const rows = (table?.rows ?? []).map((row) => {
      const amount = row.number('dose')
      if (amount === null) throw row.complain('dose', 'is empty; every row needs one')
      return { taster: row.label('taster'), dose: amount, score: row.number('score') }
    })
    return dose(rows, { level: options.level() })
  },
}
