import { difference, differenceOfTasters } from '@/lib/stats/difference/difference-test'
import { PROTOCOLS } from '@/lib/stats/difference/protocol'
import { Complaint } from '../complaint'
import type { Table } from '../read-table'
import type { Verb } from '../verb'

export const verb: Verb = {
  about: 'whether tasters can tell two cups apart, how many of them, and by how much the cups differ',
  file: { unless: 'total', needed: ['taster', 'correct'] },
  options: {
    values: {
      protocol: 'triangle, duo-trio, two-afc, three-afc or tetrad',
      correct: 'how many were right, in place of a file; with a file, the column that says so (0 or 1)',
      total: 'of how many',
      limit: 'is the share of tasters who can tell below this?',
    },
  },
  answer({ options, table }) {
    const protocol = options.needChoice('protocol', PROTOCOLS)
    const level = options.level()
    const limit = options.number('limit')
    if (!table) {
      const counts = { correct: options.needNumber('correct'), total: options.needNumber('total') }
      return difference({ protocol, limit, ...counts }, { level })
    }
    if (options.has('total')) throw new Complaint('--total goes in place of a file')
    const { right, each, missing } = answersOf(table)
    const answer =
      each === 1
        ? difference(
            { protocol, limit, correct: right.reduce((sum, one) => sum + one, 0), total: right.length },
            { level },
          )
        : differenceOfTasters({ protocol, right, each }, { level })
    return missing > 0
      ? { ...answer, notes: [...answer.notes, `${missing} rows without an answer are left out`] }
      : answer
  },
}

/** Right answers of each taster, the same number asked of all. */
function answersOf(table: Table): { right: number[]; each: number; missing: number } {
  const own = new Map<string, { right: number; asked: number }>()
  let missing = 0
  for (const row of table.rows) {
    const correct = row.number('correct')
    if (correct !== null && correct !== 0 && correct !== 1)
      throw row.complain('correct', `'${row.text('correct')}' is neither 0 nor 1`)
    if (correct === null) missing += 1
    else {
      const { right, asked } = own.get(row.label('taster')) ?? { right: 0, asked: 0 }
      own.set(row.label('taster'), { right: right + correct, asked: asked + 1 })
    }
  }
  const [first] = own
  if (!first) throw new Complaint(`${table.name}: nobody answered`)
  const [name, { asked: each }] = first
  for (const [taster, { asked }] of own) {
    if (asked !== each)
      throw new Complaint(
        `${table.name}: taster ${taster} gave ${asked} answers and taster ${name} ${each}; all must give the same number`,
      )
  }
  return { right: [...own.values()].map(({ right }) => right), each, missing }
}
