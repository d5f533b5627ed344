import { check } from '@/lib/stats/choice/check-all'
import { checkOnce } from '../once'
import type { Row } from '../read-table'
import type { Verb } from '../verb'

export const verb: Verb = {
  about: 'words ticked or not: which were ticked for some cups more than for others',
  file: { needed: ['taster', 'cup', 'term', 'checked'], most: { cup: 50, term: 100 } },
  options: { values: {} },
  answer({ options, table }) {
    const rows = table?.rows ?? []
    checkOnce(rows, 'checked', (row) =>
      row.text('checked') === null ? null : [row.label('taster'), row.label('cup'), row.label('term')],
    )
    return check(
      rows.map((row) => ({
        taster: row.label('taster'),
        cup: row.label('cup'),
        term: row.label('term'),
        checked: ticked(row),
      })),
      { level: options.level() },
    )
  },
}

function ticked(row: Row): boolean | null {
  const value = row.number('checked')
  if (value === null) return null
  if (value !== 0 && value !== 1) throw row.complain('checked', `'${row.text('checked')}' is neither 0 nor 1`)
  return value === 1
}
