import type { Checked } from './tried-house'

/** What was done to a house, and what became of what it had acknowledged. */
export interface Row {
  readonly what: string
  readonly times: number
  readonly checked: Checked | null
  /** messages acknowledged by 200 */
  readonly messages: number
  /** until every phone had an answer acknowledged again, the longest of all times; null where there is none, ms */
  readonly again: number | null
  /** the longest that one score waited until it was acknowledged, ms */
  readonly wait: number
  /** why it could not be done here, or what went wrong; null when all went as it must */
  readonly trouble: { readonly isFailure: boolean; readonly words: string } | null
}

/** The same done to several houses, as one row: counts added, the longest of the times, the first trouble. */
export function together(what: string, rows: readonly Row[]): Row {
  const checks = rows.flatMap(({ checked }) => checked ?? [])
  const add = (count: 'acknowledged' | 'lost' | 'doubled' | 'unasked') =>
    checks.reduce((sum, one) => sum + one[count], 0)
  const again = rows.flatMap((row) => row.again ?? [])
  return {
    what,
    times: rows.reduce((sum, row) => sum + row.times, 0),
    checked: {
      acknowledged: add('acknowledged'),
      lost: add('lost'),
      doubled: add('doubled'),
      unasked: add('unasked'),
      complaints: checks.flatMap(({ complaints }) => complaints),
    },
    messages: rows.reduce((sum, row) => sum + row.messages, 0),
    again: again.length > 0 ? Math.max(...again) : null,
    wait: Math.max(0, ...rows.map((row) => row.wait)),
    trouble: rows.find(({ trouble }) => trouble !== null)?.trouble ?? null,
  }
}

export function isKept(row: Row): boolean {
  return !sayVerdict(row).startsWith('FAILED')
}

export function sayVerdict({ checked, trouble }: Row): string {
  if (trouble) return `${trouble.isFailure ? 'FAILED' : 'not done'}: ${trouble.words}`
  if (!checked) return 'FAILED: nothing was checked'
  const { acknowledged, lost, doubled, unasked, complaints } = checked
  const wrong = [
    ...(acknowledged === 0 ? ['no score was acknowledged'] : []),
    ...(lost ? [`${lost} lost`] : []),
    ...(doubled ? [`${doubled} doubled`] : []),
    ...(unasked ? [`${unasked} counted that were never acknowledged`] : []),
    ...complaints,
  ]
  return wrong.length > 0 ? `FAILED: ${wrong.join(', ')}` : 'kept'
}

const HEADS = ['what was done', 'times', 'acknowledged', 'lost', 'doubled', 'all again', 'longest wait', 'verdict']

/** One table in plain text, which is a table in Markdown too. */
export function drawTable(rows: readonly Row[]): string {
  const seconds = (ms: number | null) => (ms === null ? '—' : `${(ms / 1000).toFixed(1)} s`)
  const cells = rows.map((row) => [
    row.what,
    String(row.times),
    String(row.messages),
    String(row.checked?.lost ?? '—'),
    String(row.checked?.doubled ?? '—'),
    seconds(row.again),
    seconds(row.checked ? row.wait : null),
    sayVerdict(row),
  ])
  const widths = HEADS.map((head, at) => Math.max(head.length, ...cells.map((row) => row[at]?.length ?? 0)))
  const line = (row: readonly string[]) => `| ${row.map((cell, at) => cell.padEnd(widths[at] ?? 0)).join(' | ')} |`
  return [line(HEADS), line(widths.map((width) => '-'.repeat(width))), ...cells.map(line)].join('\n')
}
