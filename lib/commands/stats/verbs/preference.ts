import { preferenceCounts, preferencePairs } from '@/lib/stats/choice/preference'
import { Complaint } from '../complaint'
import { checkOnce } from '../once'
import type { Row } from '../read-table'
import type { Verb } from '../verb'

/** for an answer within seconds: with answers that name no cup each count of them is gone through */
const MOST_WITH_NONE = 1_000_000

/** Without a file, `--preferred` is a count; with one, it names the column. */
export const verb: Verb = {
  about: 'which of two cups, or of many by pairs, is preferred',
  file: { unless: 'total', needed: ['taster', 'preferred', 'other'], most: { preferred: 100, other: 200 } },
  options: {
    values: {
      total: 'all answers, in place of a file (with --preferred a count)',
      none: 'those of them without a preference',
      cup: 'the name of the first cup, where there is no file',
    },
  },
  answer({ options, table }) {
    const level = options.level()
    if (!table) {
      const [cup, other] = [options.text('cup') ?? 'a', options.text('other') ?? 'b']
      const preferred = options.needNumber('preferred')
      const none = options.number('none') ?? 0
      if (none > 0 && options.needNumber('total') > MOST_WITH_NONE)
        throw new Complaint(`--total may be ${MOST_WITH_NONE} at most beside --none, got ${options.text('total')}`)
      return preferenceCounts({ cup, other, preferred, total: options.needNumber('total'), none }, { level })
    }
    const answers = table.rows.map((row) => ({ row, preferred: row.text('preferred'), others: othersOf(row) }))
    const pairs = new Map(
      answers.map(({ row, preferred, others }) => [row, [...(preferred ? [preferred] : []), ...others]]),
    )
    checkOnce(table.rows, 'taster', (row) => {
      const pair = pairs.get(row) ?? []
      return pair.length === 2 ? [row.label('taster'), ...pair.toSorted()] : null
    })
    return preferencePairs(
      answers.map(({ row, preferred, others }) => ({ taster: row.label('taster'), preferred, others })),
      { level },
    )
  },
}

function othersOf(row: Row): string[] {
  const other = row.text('other')
  if (row.text('preferred') !== null) {
    if (other === null) throw row.complain('other', 'is empty; it names the cup that was not preferred')
    return [other]
  }
  if (other === null) return []
  const both = other.split('|').map((cup) => cup.trim())
  if (both.length !== 2 || both.includes('')) {
    throw row.complain('other', `'${other}' must name both cups as A|B where none is preferred`)
  }
  return both
}
