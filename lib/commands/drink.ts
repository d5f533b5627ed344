import { readFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { computeBuild } from '@/lib/drink/build'
import { makeMany, MOST_MADE } from '@/lib/drink/make-many'
import type { Lacking } from '@/lib/drink/make-many'
import { MOST_ML, toMl } from '@/lib/drink/to-ml'
import type { Basis } from '@/lib/drink/to-ml'
import type { TrialBuild } from '@/lib/drink/trial'
import { trialFileSchema } from '@/lib/forms/trial-file'
import { readTrialFile } from '@/lib/forms/trial-of-file'

const BAD_INPUT = 2
/** as much as a house takes of a trial file by its form */
const MOST_BYTES = 1024 * 1024

/** One line on standard error, nothing on standard output. */
function refuse(line: string): never {
  process.stderr.write(`${line.replace(/\s+/g, ' ')}\n`)
  process.exit(BAD_INPUT)
}

function contentOf(path: string): string {
  const bytes = bytesOf(path)
  if (bytes.length > MOST_BYTES)
    refuse(`${path}: the whole file: has ${bytes.length} bytes; a trial file has ${MOST_BYTES} at most`)
  return bytes.toString('utf8')
}

function bytesOf(path: string): Buffer {
  try {
    return readFileSync(path === '-' ? 0 : path)
  } catch {
    return refuse(`${path}: cannot be read; give the path of a trial file, or - for standard input`)
  }
}

const USE =
  'use: npm run -s drink -- trial.json [--glasses N [--spare SHARE]] [--to-ml ML [--as built|strained]] (or --schema)'

const OPTIONS = {
  glasses: { type: 'string' },
  spare: { type: 'string' },
  'to-ml': { type: 'string' },
  as: { type: 'string' },
  schema: { type: 'boolean' },
} as const

function wordsOf(args: readonly string[]) {
  try {
    return parseArgs({ args: [...args], options: OPTIONS, allowPositionals: true, strict: true })
  } catch {
    return refuse(USE)
  }
}

/** A plain number between two ends, the lower one allowed or not; null where the option was not given. */
function numberOf(option: keyof typeof values, ends: Ends): number | null {
  const typed = values[option]
  if (typed === undefined) return null
  const value = /^\d+(\.\d+)?$/.test(String(typed)) ? Number(typed) : Number.NaN
  const high = value <= ends.most
  const low = ends.above ? value > ends.least : value >= ends.least
  if (!(high && low && (!ends.whole || Number.isInteger(value)))) refuse(`--${option} ${typed}: ${ends.words}`)
  return value
}

interface Ends {
  readonly least: number
  readonly above?: boolean
  readonly most: number
  readonly whole?: boolean
  readonly words: string
}

const WHOLE_GLASSES = { least: 1, most: MOST_MADE, whole: true, words: `must be a whole number from 1 to ${MOST_MADE}` }
const A_SHARE = { least: 0, most: 1, words: 'must be a share from 0 to 1, such as 0.15' }
const A_VOLUME = { least: 0, above: true, most: MOST_ML, words: `must be millilitres above 0, at most ${MOST_ML}` }

function basisOf(): Basis {
  const { as } = values
  if (as === undefined || as === 'built') return 'built'
  return as === 'strained' ? as : refuse(`--as ${as}: must be built or strained`)
}

/** What was asked for beside the figures; the whole is refused where a part of it is not known. */
function beside(build: TrialBuild) {
  const known = <Made extends { readonly known: true }>(made: Made | Lacking, option: string) => {
    if (!made.known) return refuse(`${path}: ${option} cannot be answered without ${made.missing.join('; ')}`)
    const { known: _, ...told } = made
    return told
  }
  return {
    ...(glasses === null ? {} : { make: known(makeMany(build, glasses, spare ?? 0), '--glasses') }),
    ...(ml === null ? {} : { scaled: known(toMl(build, ml, basis), '--to-ml') }),
  }
}

const { values, positionals } = wordsOf(process.argv.slice(2))
const [path, ...more] = positionals
const [glasses, spare, ml] = [
  numberOf('glasses', WHOLE_GLASSES),
  numberOf('spare', A_SHARE),
  numberOf('to-ml', A_VOLUME),
] as const
const basis = basisOf()
const whole = Object.keys(values).length === 1 && positionals.length === 0
const loose = (spare !== null && glasses === null) || (values.as !== undefined && ml === null)
if (values.schema === true ? !whole : path === undefined || more.length > 0 || loose) refuse(USE)
if (path === undefined) {
  process.stdout.write(`${JSON.stringify(trialFileSchema(), null, 2)}\n`)
} else {
  const trial = readTrialFile(contentOf(path))
  if (!trial.ok) refuse(`${path}: ${trial.detail?.path ?? 'the whole file'}: ${trial.detail?.message ?? trial.reason}`)
  const build = trial.value
  const figures = { kind: 'sipwright-figures', version: 1, name: build.name, ...computeBuild(build), ...beside(build) }
  process.stdout.write(`${JSON.stringify(figures, null, 2)}\n`)
}
