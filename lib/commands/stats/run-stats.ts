import { answerText } from './answer-text'
import { Complaint, nearestOf } from './complaint'
import { Options } from './options'
import { readTable, type Table } from './read-table'
import type { Verb } from './verb'

/** Loaded one at a time, so that a call pays for its own verb only. */
const VERBS: Readonly<Record<string, () => Promise<{ readonly verb: Verb }>>> = {
  acceptance: () => import('./verbs/acceptance'),
  ranking: () => import('./verbs/ranking'),
  preference: () => import('./verbs/preference'),
  sequential: () => import('./verbs/sequential'),
  difference: () => import('./verbs/difference'),
  tasters: () => import('./verbs/tasters'),
  orders: () => import('./verbs/orders'),
  jar: () => import('./verbs/jar'),
  check: () => import('./verbs/check'),
  dose: () => import('./verbs/dose'),
  repeats: () => import('./verbs/repeats'),
  agreement: () => import('./verbs/agreement'),
}

export interface StatsIo {
  /** "-" is standard input; throws where there is nothing to read */
  read(path: string): Uint8Array
  out(text: string): void
  err(line: string): void
}

const BAD_INPUT = 2

/**
 * Runs one call of the `stats` command: one JSON object, or one line that says what to mend.
 *
 * @param argv  verb, file, options
 * @returns     the exit code: 0 with JSON, 2 with a line and no output. Our own faults are thrown.
 */
export async function runStats(argv: readonly string[], io: StatsIo): Promise<number> {
  const source = { name: '' }
  try {
    io.out(answerText(await answerTo(argv, io, source)))
    return 0
  } catch (error) {
    // A RangeError repeats what the caller sent: readings that cannot carry the question, a number out of its range.
    if (!(error instanceof Complaint) && !(error instanceof RangeError)) throw error
    const place = error instanceof RangeError && source.name !== '' ? `${source.name}: ` : ''
    io.err(`${place}${error.message}`.replace(/\s+/g, ' '))
    return BAD_INPUT
  }
}

async function answerTo(argv: readonly string[], io: StatsIo, source: { name: string }): Promise<object> {
  const [name, ...rest] = argv
  const known = Object.keys(VERBS)
  if (name === undefined)
    throw new Complaint(`use: npm run -s stats -- VERB [FILE|-] [--option value]; ${known.join(', ')}`)
  const load = Object.hasOwn(VERBS, name) ? VERBS[name] : undefined
  if (!load) throw new Complaint(`'${name}' is not a verb${nearestOf(name, known)}`)
  const { verb } = await load()

  const { file, topics } = verb
  const parts = file ? [...file.needed, ...(file.optional ?? [])] : []
  const shared = file ? ['level', 'where', ...parts] : ['level']
  const options = Options.parse(rest, { ...verb.options, values: [...new Set([...shared, ...verb.options.values])] })
  const words = [...options.words]
  const topic = topics ? topicOf(name, words.shift(), topics) : ''
  const path = file ? words.shift() : undefined
  if (words.length > 0) throw new Complaint(`${name} does not know what to do with '${words[0]}'`)
  if (file && path === undefined && !(file.unless && options.has(file.unless))) {
    throw new Complaint(`${name} needs a FILE, or - for standard input${file.unless ? `, or --${file.unless}` : ''}`)
  }
  if (path !== undefined) source.name = path === '-' ? 'standard input' : path
  const table = file && path !== undefined ? tableOf(verb, path, source.name, options, io) : null
  return verb.answer({ options, table, topic })
}

function topicOf(verb: string, word: string | undefined, topics: readonly string[]): string {
  if (word === undefined) throw new Complaint(`${verb} needs to know for what: ${topics.join(', ')}`)
  if (!topics.includes(word)) throw new Complaint(`${verb} '${word}' is not known${nearestOf(word, topics)}`)
  return word
}

function tableOf({ file }: Verb, path: string, name: string, options: Options, io: StatsIo): Table {
  let bytes: Uint8Array
  try {
    bytes = io.read(path)
  } catch {
    throw new Complaint(`${name}: cannot be read; give the path of a CSV file, or - for standard input`)
  }
  const needed = file?.needed ?? []
  const optional = file?.optional ?? []
  const named = new Map<string, string>()
  for (const part of [...needed, ...optional]) {
    const column = options.text(part)
    if (column !== undefined) named.set(part, column)
  }
  const where = options.all('where')
  return readTable(name, bytes, { needed, optional, named, where, oneAttribute: file?.oneAttribute ?? false })
}
