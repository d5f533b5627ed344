import type * as z from 'zod'
import { no, ok } from '@/lib/base/result'
import type { Result } from '@/lib/base/result'
import type { BuildLine, Preparation, TrialBuild } from '@/lib/drink/build'
import { findLoop } from '@/lib/drink/preparation'
import { problemsOfBuild } from '@/lib/drink/problem'
import { findUnit, gramsOf } from '@/lib/drink/unit'
import { TrialFile } from './trial-file'
import type { WrittenTrialFile } from './trial-file'

/** Why a file is not a trial. `detail.path` says where in the file, `detail.message` what is wrong there. */
export type TrialFileReason = 'not-json' | 'not-a-trial' | 'loop' | 'impossible'

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
 * Reads the text of an exchange file into a trial.
 *
 * @returns the trial, or one fault: where in the file and what is wrong, in the reader's words
 */
export function readTrialFile(content: string): Result<TrialBuild, TrialFileReason> {
  let parsed: unknown
  try {
    parsed = JSON.parse(content)
  } catch {
    return fault('not-json', 'the whole file', 'is not JSON')
  }
  const file = TrialFile.safeParse(parsed, { reportInput: true })
  const [issue] = file.error?.issues ?? []
  if (issue) return fault('not-a-trial', placeOf(issue.path), wordsOf(issue))
  if (!file.success) return fault('not-a-trial', 'the whole file', 'is not a trial')
  return trialOf(file.data)
}

function trialOf(file: TrialFile): Result<TrialBuild, TrialFileReason> {
  const unknown = unknownPreparation(file)
  if (unknown) return unknown
  const uses = Object.entries(file.preparations).map(([key, { inputs }]) => [key, usedBy(inputs)] as const)
  const loop = findLoop(new Map(uses))
  if (loop) return fault('loop', `preparations.${loop[0]}`, `contains itself: ${loop.join(' → ')}`)
  const built = new Map<string, Preparation>()
  const linesOf = (place: string, from: readonly FileLine[]): Result<readonly BuildLine[], TrialFileReason> => {
    const out: BuildLine[] = []
    for (const [index, line] of from.entries()) {
      const grams = gramsOfFileLine(line)
      if (grams === null) return fault('impossible', `${place}[${index}]`, AMOUNT_MISSING)
      const preparation = line.preparation === null ? null : preparationOf(line.preparation)
      if (preparation !== null && !preparation.ok) return preparation
      const key = line.key ?? String(index + 1)
      out.push({ ...line, key, targetGrams: grams, preparation: preparation?.value ?? null })
    }
    return ok(out)
  }
  const preparationOf = (key: string): Result<Preparation, TrialFileReason> => {
    const known = built.get(key)
    if (known) return ok(known)
    const source = file.preparations[key]
    if (!source) return fault('not-a-trial', `preparations.${key}`, 'is not in this file')
    const inputs = linesOf(`preparations.${key}.inputs`, source.inputs)
    if (!inputs.ok) return inputs
    const made = { ...source, inputs: inputs.value }
    built.set(key, made)
    return ok(made)
  }
  const read = linesOf('lines', file.lines)
  if (!read.ok) return read
  const lines = read.value
  const keys = lines.map(({ key }) => key)
  const twice = keys.findIndex((key, index) => keys.indexOf(key) !== index)
  if (twice >= 0) return fault('impossible', `lines[${twice}].key`, `is used twice: ${keys[twice]}`)
  const build: TrialBuild = {
    name: file.name,
    brew: file.brew,
    coffeeTemperature: file.coffeeTemperature,
    iceTemperature: file.iceTemperature,
    vessel: file.vessel,
    lines,
    money: file.money,
    room: file.room,
    allergenList: file.allergenList,
  }
  const problem = problemsOfBuild(build).find(({ doubt }) => !doubt)
  return problem ? fault('impossible', placeOfField(problem.field, keys), problem.message) : ok(build)
}

const AMOUNT_MISSING = 'needs targetGrams, or a typed amount (with a density if it is a volume)'

function gramsOfFileLine({ targetGrams, typed, density }: FileLine): number | null {
  if (targetGrams !== undefined) return targetGrams
  if (typed === null) return null
  const grams = gramsOf(typed.amount, typed.unit, typed.density ?? density)
  return grams.ok ? grams.value : null
}

const usedBy = (lines: readonly FileLine[]) => lines.flatMap(({ preparation }) => preparation ?? [])

function unknownPreparation(file: TrialFile) {
  const places = [
    ['lines', file.lines] as const,
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
  const seen = new Map<string, string>()
  const keyOf = (preparation: Preparation): string => {
    const written = { ...preparation, inputs: preparation.inputs.map(lineOf) }
    const same = JSON.stringify(written)
    const before = seen.get(same)
    if (before !== undefined) return before
    const wanted = `${preparation.name} ${preparation.batch}`
      .trim()
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, '-')
    let key = wanted
    for (let copy = 2; Object.hasOwn(preparations, key); copy++) key = `${wanted}-${copy}`
    seen.set(same, key)
    preparations[key] = written
    return key
  }
  const lineOf = (line: BuildLine) => ({
    ...line,
    typed: writtenAmount(line.typed),
    preparation: line.preparation && keyOf(line.preparation),
  })
  const lines = build.lines.map(lineOf)
  return { kind: 'sipwright-trial', version: 1, ...build, preparations, lines }
}

function writtenAmount(typed: BuildLine['typed']) {
  const unit = typed === null ? null : findUnit(typed.unit)
  return typed === null || unit === null ? null : { ...typed, unit: unit.id }
}
