import { byLabel } from '@/lib/stats/label-order'
import { sequential } from '@/lib/stats/difference/sequential'
import { Complaint } from '../complaint'
import type { Table } from '../read-table'
import type { Verb } from '../verb'

type Side = 'a' | 'b'

/** The rows of a file are the order in which the tasters answered: here alone, their order is part of the question. */
export const verb: Verb = {
  about: 'told taster by taster: decided, or must more taste?',
  file: { unless: 'sequence', needed: ['preferred'], optional: ['other'] },
  options: {
    values: {
      p1: 'the share for one cup that should be noticed',
      alpha: 'two-sided risk of a preference where there is none',
      beta: 'risk of missing it',
      max: 'no more tasters than this',
      sequence: 'ABBA…, in place of a file',
    },
  },
  answer({ options, table }) {
    const { sides, notes } = table ? told(table) : { sides: spelled(options.text('sequence') ?? ''), notes: [] }
    const answer = sequential(sides, {
      p1: options.needNumber('p1'),
      alpha: options.needNumber('alpha'),
      beta: options.needNumber('beta'),
      max: options.needNumber('max'),
    })
    return { ...answer, notes: [...answer.notes, ...notes] }
  },
}

function spelled(sequence: string): Side[] {
  return [...sequence.replace(/\s/g, '')].map((letter, at) => {
    const side = letter.toLowerCase()
    if (side === 'a' || side === 'b') return side
    throw new Complaint(`--sequence: '${letter}' at place ${at + 1} is neither A nor B`)
  })
}

function told(table: Table): { sides: Side[]; notes: string[] } {
  const answers = table.rows.flatMap((row) => row.text('preferred') ?? [])
  const named = table.rows.flatMap((row) => (row.text('preferred') === null ? [] : (row.text('other') ?? [])))
  const cups = [...new Set([...answers, ...named])].toSorted(byLabel)
  const third = table.rows.find((row) => cups.indexOf(row.text('preferred') ?? '') > 1)
  if (third)
    throw third.complain(
      'preferred',
      `'${third.text('preferred')}' is a third cup beside ${cups.slice(0, 2).join(' and ')}`,
    )
  const missing = table.rows.length - answers.length
  return {
    sides: answers.map((cup) => (cup === cups[0] ? 'a' : 'b')),
    notes: [
      `a is ${cups[0] ?? 'unnamed'}, b is ${cups[1] ?? 'unnamed'}`,
      ...(missing > 0 ? [`${missing} rows without a preference are left out`] : []),
    ],
  }
}
