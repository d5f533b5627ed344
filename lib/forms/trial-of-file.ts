import type * as z from 'zod'
import { no, ok } from '@/lib/base/result'
import type { Result } from '@/lib/base/result'
import type { BuildLine, Preparation, TrialBuild } from '@/lib/drink/trial'
import { linesInGlass } from '@/lib/drink/in-glass'
import { innermostFirst, levelsOf, preparationsWithin } from '@/lib/drink/nesting'
import { problemsOfBuild } from '@/lib/drink/problem'
import { untrueShares } from '@/lib/drink/shares'
import { PART } from '@/lib/drink/unit'
import { gramsOfFileLine, readAmount, sharedAmount, withGramsOfShares, writtenAmount } from './amount-of-file'
import { FILE_LIMITS, KeptSheet, TrialFile } from './trial-file'
import type { WrittenTrialFile } from './trial-file'

/** Why a file is not a trial. `detail.path` says where in the file, `detail.message` what is wrong there. */
export type TrialFileReason = 'not-json' | 'too-large' | 'not-a-trial' | 'loop' | 'impossible'

type FileLine = TrialFile['lines'][number]

const fault = (reason: TrialFileReason, path: string, message: string) => no(reason, { path, message })

/** The place of a value in a JSON file, as one would say it: `lines[2].targetGrams`. */
function placeOf(path: readonly PropertyKey[]): string {
  const written = path.map((key) => (typeof key === 'number' ? `[${key}]` : `.${String(key)}`)).join('')
  return written.replace(/^\./, '') || 'the whole file'
}

const KINDS: Readonly<Record<string, string>> = {
  number: 'a number',
  string: 'text',
  object: 'an object { }',
  array: 'a list [ ]',
  boolean: 'true or false',
  record: 'an object { }',
}

function wordsOf(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return issue.input === undefined
        ? `is missing; it should be ${KINDS[issue.expected] ?? issue.expected}`
        : `should be ${KINDS[issue.expected] ?? issue.expected}`
    case 'too_small':
      if (issue.origin !== 'number') return 'must not be empty'
      return issue.inclusive ? `must be ${issue.minimum} or more` : `must be more than ${issue.minimum}`
    case 'too_big':
      return `must be ${issue.maximum} or less`
    case 'invalid_value':
      return `must be ${issue.values.map((value) => JSON.stringify(value)).join(' or ')}`
    case 'unrecognized_keys':
      return `has a field we do not know: ${issue.keys.join(', ')}`
    default:
      return 'is not what it should be'
  }
}

/**
 * Reads the text of an exchange file into a trial, whoever wrote it: a file that is larger than any drink is refused before
 * it is worked through.
 *
 * @returns the trial, or one fault: where in the file and what is wrong, in the reader's words
 */
export function readTrialFile(content: string): Result<TrialBuild, TrialFileReason> {
  const parsed = parsedFrom(content)
  if (!parsed.ok) return parsed
  const tooMuch = tooLarge(parsed.value)
  if (tooMuch) return tooMuch
  const shaped = read(TrialFile, parsed.value)
  return shaped.ok ? checked(shaped.value) : shaped
}

/**
 * Reads the sheet a trial of this house was frozen with: its shape alone. It has no limits, and nothing is asked of what it
 * says: what the house holds is read for ever, whatever a later check thinks of it.
 *
 * @param parsed  what JSON made of the text
 */
export function readKeptSheet(parsed: unknown): Result<TrialBuild, TrialFileReason> {
  return read(KeptSheet, parsed)
}

export function parsedFrom(content: string): Result<unknown, TrialFileReason> {
  try {
    // Some editors begin a file with a byte order mark.
    return ok(JSON.parse(content.replace(/^\uFEFF/, '')))
  } catch {
    return fault('not-json', 'the whole file', 'is not JSON')
  }
}

function read(schema: typeof KeptSheet, parsed: unknown): Result<TrialBuild, TrialFileReason> {
  const file = schema.safeParse(parsed, { reportInput: true })
  const [issue] = file.error?.issues ?? []
  if (issue) return fault('not-a-trial', placeOf(issue.path), wordsOf(issue))
  if (!file.success) return fault('not-a-trial', 'the whole file', 'is not a trial')
  return trialOf(file.data)
}

/** Counts preparations, lines and levels in what may be anything, before the schema looks at each of them. */
function tooLarge(parsed: unknown) {
  const inside = (thing: unknown, name: string): unknown =>
    typeof thing === 'object' && thing !== null && Object.hasOwn(thing, name) ? Reflect.get(thing, name) : null
  const listIn = (thing: unknown, name: string): readonly unknown[] => {
    const list = inside(thing, name)
    return Array.isArray(list) ? list : []
  }
  const given = inside(parsed, 'preparations')
  const preparations = new Map(typeof given === 'object' && given !== null ? Object.entries(given) : [])
  if (preparations.size > FILE_LIMITS.preparations) {
    return fault(
      'too-large',
      'preparations',
      `are ${preparations.size}; a file holds at most ${FILE_LIMITS.preparations}`,
    )
  }
  let lines = listIn(parsed, 'lines').length + listIn(parsed, 'beside').length
  for (const preparation of preparations.values()) lines += listIn(preparation, 'inputs').length
  if (lines > FILE_LIMITS.lines) {
    const most = `a file holds at most ${FILE_LIMITS.lines}, those of its preparations counted`
    return fault('too-large', 'lines', `are ${lines}; ${most}`)
  }
  const usedIn = (key: string) =>
    listIn(preparations.get(key), 'inputs').flatMap((line) => {
      const used = inside(line, 'preparation')
      return typeof used === 'string' ? [used] : []
    })
  const levels = levelsOf(preparations.keys(), usedIn)
  if (levels <= FILE_LIMITS.levels) return null
  const most = `at most ${FILE_LIMITS.levels} may stand one inside the other`
  return fault('too-large', 'preparations', `are nested ${levels} deep; ${most}`)
}

function trialOf(file: TrialFile): Result<TrialBuild, TrialFileReason> {
  const unknown = unknownPreparation(file)
  if (unknown) return unknown
  const uses = new Map(Object.entries(file.preparations).map(([key, { inputs }]) => [key, usedBy(inputs)] as const))
  const { order, loops } = innermostFirst(uses.keys(), (key) => uses.get(key) ?? [])
  for (const loop of loops.values()) {
    return fault('loop', `preparations.${loop[0]}`, `contains itself: ${loop.join(' → ')}`)
  }
  const built = new Map<string, Preparation>()
  const linesOf = (place: string, from: readonly FileLine[]): Result<readonly BuildLine[], TrialFileReason> => {
    const out: BuildLine[] = []
    for (const [index, line] of from.entries()) {
      const shared = sharedAmount(line, place === 'lines', file.partGrams)
      if (shared !== null) return fault('impossible', `${place}[${index}].typed.unit`, shared)
      const grams = gramsOfFileLine(line, file.partGrams)
      if (grams === null) return fault('impossible', `${place}[${index}]`, AMOUNT_MISSING)
      const preparation = line.preparation === null ? null : built.get(line.preparation)
      if (preparation === undefined) return fault('not-a-trial', `${place}[${index}].preparation`, NOT_HERE)
      const key = line.key ?? String(index + 1)
      out.push({ ...line, key, targetGrams: grams, typed: readAmount(line.typed, file.partGrams), preparation })
    }
    return ok(out)
  }
  for (const key of order) {
    const source = file.preparations[key]
    if (!source) return fault('not-a-trial', `preparations.${key}`, NOT_HERE)
    const inputs = linesOf(`preparations.${key}.inputs`, source.inputs)
    if (!inputs.ok) return inputs
    built.set(key, { ...source, inputs: inputs.value })
  }
  const read = linesOf('lines', file.lines)
  if (!read.ok) return read
  const lines = withGramsOfShares(file, read.value)
  if (!lines.ok) return fault('impossible', lines.detail?.['path'] ?? 'lines', lines.detail?.['message'] ?? '')
  const apart = linesOf(
    'beside',
    file.beside.map((one) => one.line),
  )
  if (!apart.ok) return apart
  return ok({
    name: file.name,
    brew: file.brew,
    coffeeTemperature: file.coffeeTemperature,
    iceTemperature: file.iceTemperature,
    vessel: file.vessel,
    level: file.level,
    lines: lines.value,
    beside: file.beside.flatMap((one, place) => {
      const line = apart.value[place]
      return line ? [{ ...one, line }] : []
    }),
    money: file.money,
    room: file.room,
    allergenList: file.allergenList,
  })
}

/** What a sheet that comes from elsewhere may not say. */
function checked(build: TrialBuild): Result<TrialBuild, TrialFileReason> {
  const keys = build.lines.map(({ key }) => key)
  const twice = keys.findIndex((key, index) => keys.indexOf(key) !== index)
  if (twice >= 0) return fault('impossible', `lines[${twice}].key`, `is used twice: ${keys[twice]}`)
  const untrue = untrueShares(build.lines, build.brew)
  const share = build.lines.findIndex(({ key }) => untrue.has(key))
  if (share >= 0) return fault('impossible', `lines[${share}].typed`, NOT_THAT_SHARE)
  const problem = problemsOfBuild(build).find(({ doubt }) => !doubt)
  return problem ? fault('impossible', placeOfField(problem.field, keys), problem.message) : ok(build)
}

const NOT_HERE = 'is not in this file'
const NOT_THAT_SHARE = 'is another share of the drink than targetGrams; leave one of them out'
const AMOUNT_MISSING = 'needs targetGrams, or a typed amount (with a density if it is a volume)'

const usedBy = (lines: readonly FileLine[]) => lines.flatMap(({ preparation }) => preparation ?? [])

function unknownPreparation(file: TrialFile) {
  const places = [
    ['lines', file.lines] as const,
    ['beside', file.beside.map(({ line }) => line)] as const,
    ...Object.entries(file.preparations).map(([key, { inputs }]) => [`preparations.${key}.inputs`, inputs] as const),
  ]
  for (const [place, lines] of places) {
    const index = lines.findIndex(
      ({ preparation }) => preparation !== null && !Object.hasOwn(file.preparations, preparation),
    )
    if (index >= 0) {
      const asked = lines[index]?.preparation
      return fault(
        'not-a-trial',
        `${place}[${index}].preparation`,
        `names a preparation that is not in this file: ${asked}`,
      )
    }
  }
  return null
}

/** `lines.<key>.x` of a problem, said as a place in the file. */
function placeOfField(field: string, keys: readonly string[]): string {
  const index = keys.findIndex((key) => field === `lines.${key}` || field.startsWith(`lines.${key}.`))
  return index < 0 ? field : `lines[${index}]${field.slice(`lines.${keys[index]}`.length)}`
}

/**
 * Writes a trial as an exchange file; reading it again gives the same trial.
 *
 * A batch used twice is written once: the same object, or the same name, batch and content.
 */
export function fileOfTrial(build: TrialBuild): WrittenTrialFile {
  const preparations: Record<string, NonNullable<WrittenTrialFile['preparations']>[string]> = {}
  const byContent = new Map<string, string>()
  const keys = new Map<Preparation, string>()
  // What is not said is left out: an older house, which knows nothing of levels or of the grind, reads the file then.
  const lineOf = ({ insteadOf, grind, ...line }: BuildLine) => ({
    ...line,
    ...(insteadOf === null ? {} : { insteadOf }),
    ...(grind === null ? {} : { grind }),
    typed: writtenAmount(line),
    preparation: line.preparation && (keys.get(line.preparation) ?? null),
  })
  // The innermost first: what stands in a preparation has its key before the preparation is written.
  for (const preparation of preparationsWithin(linesInGlass(build))) {
    const written = { ...preparation, brew: writtenBrew(preparation.brew), inputs: preparation.inputs.map(lineOf) }
    const content = JSON.stringify(written)
    const same = byContent.get(content)
    if (same !== undefined) {
      keys.set(preparation, same)
      continue
    }
    const key = freeKey(preparation, preparations)
    keys.set(preparation, key)
    byContent.set(content, key)
    preparations[key] = written
  }
  const { level, beside, ...all } = build
  const lines = build.lines.map(lineOf)
  const apart = beside.map((one) => ({ ...one, line: lineOf(one.line) }))
  const partGrams = build.lines.find(({ typed }) => typed?.unit === PART)?.typed?.partGrams
  return {
    kind: 'sipwright-trial',
    version: 1,
    ...all,
    brew: writtenBrew(all.brew),
    preparations,
    ...(partGrams === undefined ? {} : { partGrams }),
    ...(level === null ? {} : { level }),
    lines,
    ...(apart.length === 0 ? {} : { beside: apart }),
  }
}

/** A name that no other preparation of the file has yet. */
function freeKey({ name, batch }: Preparation, taken: object): string {
  const wanted = `${name} ${batch}`
    .trim()
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
  let key = wanted
  for (let copy = 2; Object.hasOwn(taken, key); copy++) key = `${wanted}-${copy}`
  return key
}

function writtenBrew(brew: TrialBuild['brew']) {
  if (brew === null) return null
  const { waterTemperature, seconds, ...all } = brew
  return {
    ...all,
    ...(waterTemperature === null ? {} : { waterTemperature }),
    ...(seconds === null ? {} : { seconds }),
  }
}
