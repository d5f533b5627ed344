import { answerLine, answerText } from './answer-text'
import { Complaint, nearestOf } from './complaint'
import { helpText, verbHelp } from './help'
import { Options } from './options'
import { readParts, readTable, type Table, type Wanted } from './read-table'
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
  rehearse: () => import('./verbs/rehearse'),
}

export interface StatsIo {
  /** "-" is standard input; throws where there is nothing to read */
  read(path: string): Uint8Array
  out(text: string): void
  err(line: string): void
}

const BAD_INPUT = 2

/**
 * Runs one call of the `stats` command: one JSON object (with --by one a line), help as text, or one line that says what
 * to mend.
 *
 * @param argv  verb, file, options
 * @returns     the exit code: 0 with an answer, 2 with a line and no output. Our own faults are thrown.
 */
export async function runStats(argv: readonly string[], io: StatsIo): Promise<number> {
  const source = { name: '' }
  try {
    io.out(await answerTo(argv, io, source))
    return 0
  } catch (error) {
    io.err(mendable(error, source.name))
    return BAD_INPUT
  }
}

/** What the caller can mend, in one line; anything else is a fault of ours and thrown on. */
function mendable(error: unknown, source: string): string {
  // A RangeError repeats what the caller sent: readings that cannot carry the question, a number out of its range.
  if (!(error instanceof Complaint) && !(error instanceof RangeError)) throw error
  const place = error instanceof RangeError && source !== '' ? `${source}: ` : ''
  return `${place}${error.message}`.replace(/\s+/g, ' ')
}

const HELP = '--help'

async function answerTo(argv: readonly string[], io: StatsIo, source: { name: string }): Promise<string> {
  const [name, ...rest] = argv
  const known = Object.keys(VERBS)
  if (name === undefined)
    throw new Complaint(
      `use: npm run -s stats -- VERB [FILE|-] [--option value]; ${known.join(', ')}; --help says more`,
    )
  if (name === HELP) return helpText(await Promise.all(known.map(async (one) => [one, await verbOf(one)] as const)))
  const verb = await verbOf(name)
  if (rest.includes(HELP)) return verbHelp(name, verb)

  const { file, topics } = verb
  const shared = { level: '', ...(file ? { where: '', by: '' } : {}) }
  const columns = Object.fromEntries([...(file?.needed ?? []), ...(file?.optional ?? [])].map((part) => [part, '']))
  const options = Options.parse(rest, { ...verb.options, values: { ...shared, ...columns, ...verb.options.values } })
  const words = [...options.words]
  const topic = topics ? topicOf(name, words.shift(), Object.keys(topics)) : ''
  const path = file ? words.shift() : undefined
  if (words.length > 0) throw new Complaint(`${name} does not know what to do with '${words[0]}'`)
  if (file && path === undefined && !(file.unless && options.has(file.unless))) {
    throw new Complaint(`${name} needs a FILE, or - for standard input${file.unless ? `, or --${file.unless}` : ''}`)
  }
  const by = options.text('by')
  if (path === undefined) {
    if (by !== undefined) throw new Complaint('--by needs a FILE whose rows it can part')
    return answerText(verb.answer({ options, table: null, topic }))
  }
  source.name = path === '-' ? 'standard input' : path
  const bytes = bytesOf(path, source.name, io)
  const wanted = wantedOf(verb, options)
  const answer = (table: Table) => verb.answer({ options, table, topic })
  if (by === undefined) return answerText(answer(readTable(source.name, bytes, wanted)))

  let usable = false
  const lines = readParts(source.name, bytes, wanted, by).map(({ value, table }) => {
    try {
      const found = answer(table())
      usable = true
      return { by: value, ...found }
    } catch (error) {
      return { by: value, error: mendable(error, source.name) }
    }
  })
  if (usable) return lines.map(answerLine).join('')
  const [first] = lines
  throw new Complaint(
    `no value of ${by} can be answered; ${first?.by}: ${first && 'error' in first ? first.error : ''}`,
  )
}

async function verbOf(name: string): Promise<Verb> {
  const load = Object.hasOwn(VERBS, name) ? VERBS[name] : undefined
  if (!load) throw new Complaint(`'${name}' is not a verb${nearestOf(name, Object.keys(VERBS))}`)
  return (await load()).verb
}

function topicOf(verb: string, word: string | undefined, topics: readonly string[]): string {
  if (word === undefined) throw new Complaint(`${verb} needs to know for what: ${topics.join(', ')}`)
  if (!topics.includes(word)) throw new Complaint(`${verb} '${word}' is not known${nearestOf(word, topics)}`)
  return word
}

function bytesOf(path: string, name: string, io: StatsIo): Uint8Array {
  try {
    return io.read(path)
  } catch {
    throw new Complaint(`${name}: cannot be read; give the path of a CSV file, or - for standard input`)
  }
}

function wantedOf({ file }: Verb, options: Options): Wanted {
  const needed = file?.needed ?? []
  const optional = file?.optional ?? []
  const named = new Map<string, string>()
  for (const part of [...needed, ...optional]) {
    const column = options.text(part)
    if (column !== undefined) named.set(part, column)
  }
  return {
    needed,
    optional,
    named,
    where: options.all('where'),
    oneAttribute: file?.oneAttribute ?? false,
    most: file?.most ?? {},
  }
}
