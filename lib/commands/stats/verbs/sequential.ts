import { byLabel } from '@/lib/stats/label-order'
import { guessingShare, PROTOCOLS } from '@/lib/stats/difference/protocol'
import { sequential, sequentialGuessing } from '@/lib/stats/difference/sequential'
import { Complaint } from '../complaint'
import type { Table } from '../read-table'
import type { Verb } from '../verb'

type Side = 'a' | 'b'

/** The rows of a file are the order in which the tasters answered: here alone, their order is part of the question. */
export const verb: Verb = {
  about: 'told taster by taster: decided, or must more taste?',
  file: { unless: 'sequence', needed: [], optional: ['preferred', 'correct', 'other'] },
  options: {
    values: {
      p1: 'the share for one cup that should be noticed',
      protocol: 'triangle, duo-trio, two-afc, three-afc or tetrad: answers are right or wrong',
      pd: 'with a protocol, the share who can tell that should be noticed',
      alpha: 'two-sided risk of a preference where there is none; with a protocol, of a difference',
      beta: 'risk of missing it',
      max: 'no more tasters than this',
      looks: 'N1,N2,…: decisions are taken only after so many tasters',
      sequence: 'ABBA…, or 1011… with a protocol, in place of a file',
    },
  },
  answer({ options, table }) {
    const common = {
      alpha: options.needNumber('alpha'),
      beta: options.needNumber('beta'),
      max: options.needNumber('max'),
      looks: looksOf(options.text('looks')),
    }
    const protocol = options.choice('protocol', PROTOCOLS)
    const stray = protocol === undefined ? 'pd' : 'p1'
    if (options.has(stray))
      throw new Complaint(`--${stray} goes ${protocol === undefined ? 'only ' : 'not '}with --protocol`)
    if (protocol !== undefined) {
      const { right, notes } = table
        ? rightOf(table)
        : { right: rightSpelled(options.text('sequence') ?? ''), notes: [] }
      const answer = sequentialGuessing(right, {
        ...common,
        guessing: guessingShare(protocol),
        telling: options.needNumber('pd'),
      })
      return { ...answer, notes: [...answer.notes, ...notes] }
    }
    const { sides, notes } = table ? told(table) : { sides: spelled(options.text('sequence') ?? ''), notes: [] }
    const answer = sequential(sides, { ...common, p1: options.needNumber('p1') })
    return { ...answer, notes: [...answer.notes, ...notes] }
  },
}

function looksOf(text: string | undefined): number[] | undefined {
  return text?.split(',').map((word) => {
    const look = Number(word.trim())
    if (!Number.isInteger(look) || look < 1) throw new Complaint(`--looks: '${word}' is not a whole number from 1`)
    return look
  })
}

function spelled(sequence: string): Side[] {
  return [...sequence.replace(/\s/g, '')].map((letter, at) => {
    const side = letter.toLowerCase()
    if (side === 'a' || side === 'b') return side
    throw new Complaint(`--sequence: '${letter}' at place ${at + 1} is neither A nor B`)
  })
}

function rightSpelled(sequence: string): boolean[] {
  return [...sequence.replace(/\s/g, '')].map((letter, at) => {
    if (letter === '0' || letter === '1') return letter === '1'
    throw new Complaint(`--sequence: '${letter}' at place ${at + 1} is neither 0 nor 1`)
  })
}

function rightOf(table: Table): { right: boolean[]; notes: string[] } {
  if (!table.has('correct')) throw new Complaint(`${table.name} line 1, column correct: there is no such column`)
  const answers = table.rows.flatMap((row) => {
    const correct = row.number('correct')
    if (correct !== null && correct !== 0 && correct !== 1)
      throw row.complain('correct', `'${row.text('correct')}' is neither 0 nor 1`)
    return correct === null ? [] : [correct === 1]
  })
  const missing = table.rows.length - answers.length
  return { right: answers, notes: missing > 0 ? [`${missing} rows without an answer are left out`] : [] }
}

function told(table: Table): { sides: Side[]; notes: string[] } {
  if (!table.has('preferred')) throw new Complaint(`${table.name} line 1, column preferred: there is no such column`)
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
