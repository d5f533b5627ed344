import { jar } from '@/lib/stats/liking/just-about-right'
import type { Verb } from '../verb'

export const verb: Verb = {
  about: 'just about right from 1 to 5: how much liking goes with too little or too much',
  file: { needed: ['attribute', 'liking'], most: { taster: 4000 }, optional: ['taster'] },
  options: { values: {} },
  answer({ options, table }) {
    const named = table?.has('taster') ?? false
    const rows = (table?.rows ?? []).map((row) => {
      const attribute = row.number('attribute')
      if (attribute !== null && ![1, 2, 3, 4, 5].includes(attribute)) {
        throw row.complain('attribute', `'${row.text('attribute')}' is not 1, 2, 3, 4 or 5`)
      }
      return { attribute, liking: row.number('liking'), taster: named ? row.label('taster') : null }
    })
    return jar(rows, { level: options.level() })
  },
}
