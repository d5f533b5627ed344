import type { Verb } from './verb'

const HEAD = `The statistics of this project on a CSV file: one JSON object on standard output.

  npm run -s stats -- VERB [FILE|-] [--option value …]
  npm run -s stats -- VERB --help
`

const SHARED = {
  level: 'coverage of intervals, one minus the risk of tests (0.95)',
}
const OF_FILES = {
  where: 'column=value: keeps matching rows (repeatable)',
  by: 'column: one answer, on a line of its own, for each of its values',
}

/** Every verb with what it answers, and what all of them take. */
export function helpText(verbs: readonly (readonly [name: string, verb: Verb])[]): string {
  const options = { ...SHARED, ...OF_FILES, COLUMN: 'a needed column under another name: --taster judge' }
  return [
    HEAD,
    'Verbs:',
    ...listed(Object.fromEntries(verbs.map(([name, { about }]) => [name, about])), ''),
    '',
    'Options of every verb that reads a file:',
    ...listed(options, '--'),
    '',
  ].join('\n')
}

/** One verb: its columns, what it is about, and its options. */
export function verbHelp(name: string, { about, file, topics, options }: Verb): string {
  const call = [name, ...(topics ? ['WHAT'] : []), ...(file ? [file.unless ? '(FILE|-, or counts)' : 'FILE|-'] : [])]
  return [
    `npm run -s stats -- ${call.join(' ')} [--option value …]`,
    '',
    `${about}.`,
    ...(topics ? ['', 'WHAT:', ...listed(topics, '')] : []),
    ...(file
      ? ['', `Columns needed: ${file.needed.join(', ')}${file.unless ? ` (not with --${file.unless})` : ''}`]
      : []),
    ...(file?.optional ? [`Columns used where they are there: ${file.optional.join(', ')}`] : []),
    ...(file?.most
      ? [
          `Different values at most: ${Object.entries(file.most)
            .map(([part, most]) => `${part} ${most}`)
            .join(', ')}`,
        ]
      : []),
    ...(file ? ['Each is named otherwise by its own option: --taster judge'] : []),
    '',
    'Options:',
    ...listed({ ...options.values, ...options.flags, ...SHARED, ...(file ? OF_FILES : {}) }, '--'),
    '',
  ].join('\n')
}

function listed(entries: Readonly<Record<string, string>>, mark: string): string[] {
  const width = Math.max(...Object.keys(entries).map((name) => name.length)) + mark.length + 2
  return Object.entries(entries).map(([name, about]) => `  ${`${mark}${name}`.padEnd(width)}${about}`)
}
