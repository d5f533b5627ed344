import { repeats } from '@/lib/stats/over-panels/repeats'
import type { Verb } from '../verb'

export const verb: Verb = {
  about: 'what repeated panels say together',
  file: { needed: ['study', 'difference', 'se'], most: { study: 10_000 } },
  options: {
    values: {
      tau: 'dersimonian-laird (default) or reml',
    },
  },
  answer({ options, table }) {
    const rows = (table?.rows ?? []).map((row) => {
      const se = row.number('se')
      if (se !== null && se <= 0) throw row.complain('se', `'${row.text('se')}' is not above zero`)
      return { study: row.label('study'), difference: row.number('difference'), se }
    })
    const tau = options.choice('tau', ['dersimonian-laird', 'reml']) ?? 'dersimonian-laird'
    return repeats(rows, { level: options.level(), tau })
  },
}
