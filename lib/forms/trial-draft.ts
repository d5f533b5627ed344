import { no, ok } from '@/lib/base/result'
import { readNumber, type NumberField } from '@/lib/base/typed-number'
import type { BesideLine, Brew, BuildLine, MoneySettings, TrialBuild, Vessel } from '@/lib/drink/trial'
import { madeAt, type Alternative } from '@/lib/drink/cost-level'
import { computeBuild } from '@/lib/drink/build'
import type { BuildFigures } from '@/lib/drink/trial'
import { findMethod } from '@/lib/drink/method'
import { doseOf, type DoseRefusal } from '@/lib/drink/dose'
import { lineOf, type Part } from '@/lib/drink/part'
import { isNotInDate } from '@/lib/drink/preparation'
import { gramsOfShares } from '@/lib/drink/shares'
import { PART, PERCENT as UNIT_PERCENT } from '@/lib/drink/unit'
import { newPart, withPassing } from './draft-passing'
import { unreadInLine, unreadOnSheet, type UnreadLine } from './draft-unread'
import { AMOUNT, MINUTES, DENSITY, PART_GRAMS, PERCENT, temperatureField, THOUSANDTHS } from './number-fields'
import { PART_MISSING, sayShare, sayShareWaits } from './say-share'

/** What a cost level uses where a line is made of `part`; of several lines of it, on the one after `before` others. */
export interface DraftAlternative {
  readonly part: string
  readonly before: number
  readonly level: Alternative['level']
  readonly other: Part
}

/** Everything about the drink that does not stand in the form. */
export interface DraftGround {
  readonly parts: readonly Part[]
  readonly levels: readonly Alternative['level'][]
  readonly alternatives: readonly DraftAlternative[]
  readonly vessels: readonly (Vessel & {
    readonly id: string
    readonly packMinor: number
    /** W per degree, measured */
    readonly heatLeak: number | null
  })[]
  readonly money: MoneySettings
  /** minor units of packaging beside the vessel's own */
  readonly packMinor: number
  readonly currencyDigits: number
  readonly room: TrialBuild['room']
  readonly allergenList: TrialBuild['allergenList']
}

/** Read as the form reads it when it is saved: what is asked there is not known here. */
const number = (form: FormData, name: string, field: NumberField): number | null => {
  const read = readNumber(String(form.get(name) ?? ''), field)
  return read.ok ? read.value : null
}

const degrees = (form: FormData, name: string) => number(form, name, temperatureField(-40, 100))

/** The sheet as it stands while somebody types, made at the level it says: what cannot be read yet is not known, nothing throws. */
export function draftBuild(form: FormData, ground: DraftGround): TrialBuild {
  return buildOf(form, ground, draftLines(form, ground))
}

function buildOf(form: FormData, ground: DraftGround, lines: readonly DraftLine[]): TrialBuild {
  const level = ground.levels.find((one) => one.id === form.get('costLevelId')) ?? null
  const alternatives = alternativesOf(lines, ground.alternatives)
  const made = madeAt(namedBuild(form, ground, lines), level, alternatives)
  return { ...made, beside: [...made.beside, ...otherBatches(lines, ground.alternatives, level)] }
}

/** Every batch that may be poured another day where a preparation is named: it counts for allergens. */
function otherBatches(
  lines: readonly DraftLine[],
  all: readonly DraftAlternative[],
  level: Alternative['level'] | null,
): readonly BesideLine[] {
  return lines.flatMap(({ ref, line, beside }, place) => {
    const before = lines.slice(0, place).filter((one) => one.ref === ref).length
    const others = all.filter((one) => one.part === ref && one.before === before)
    const chosen = others.find((one) => one.level.id === level?.id)
    const parts = chosen ? (chosen.other.beside ?? []) : beside
    const possible = level === null ? others.flatMap(({ other }) => other.beside ?? []) : []
    return [...parts, ...possible].map((part) => ({
      line: lineOf(part, { key: line.key, role: part.kind, targetGrams: line.targetGrams }),
      insteadOf: line.name,
      level: null,
      why: 'other-batch',
    }))
  })
}

function namedBuild(form: FormData, ground: DraftGround, lines: readonly DraftLine[]): TrialBuild {
  const vessel = ground.vessels.find((one) => one.id === form.get('vesselId')) ?? null
  return {
    name: String(form.get('name') ?? ''),
    brew: brewTyped(form),
    coffeeTemperature: degrees(form, 'coffeeTemperature'),
    iceTemperature: degrees(form, 'iceTemperature'),
    vessel,
    level: null,
    lines: lines.map(({ line }) => line),
    beside: [],
    money: {
      ...ground.money,
      packagingCost: (ground.packMinor + (vessel?.packMinor ?? 0)) / 10 ** ground.currencyDigits,
    },
    room: { temperature: ground.room?.temperature ?? null, heatLeak: vessel?.heatLeak ?? null },
    allergenList: ground.allergenList,
  }
}

function brewTyped(form: FormData): Brew | null {
  const method = findMethod(String(form.get('method') ?? ''))
  if (!method?.brewing) return null
  const kind = form.get('ratioKind')
  const minutes = number(form, 'brewMinutes', MINUTES)
  return {
    method: method.words,
    brewing: method.brewing,
    ratioKind: kind === 'water-in' || kind === 'beverage-out' ? kind : null,
    ratio: number(form, 'ratio', THOUSANDTHS),
    retention: number(form, 'retention', THOUSANDTHS),
    extractionPercent: number(form, 'extraction', PERCENT),
    strengthPercent: number(form, 'strength', PERCENT),
    waterTemperature: degrees(form, 'waterTemperature'),
    seconds: minutes === null ? null : Math.round(minutes * 60),
  }
}

/** What the page shows of a sheet while it is typed. */
export interface DraftSheet {
  readonly build: TrialBuild
  /** the lines as they were typed, whatever a cost level uses in their place */
  readonly named: readonly BuildLine[]
  /** of the lines that can be read; allergens, cautions and what to mend are of all of them */
  readonly figures: BuildFigures
  readonly unread: readonly UnreadLine[]
  /** numbers beside the lines that cannot be read, by what the page calls them */
  readonly unreadFields: readonly string[]
}

/** The figures of what can be read, and what is left out of them: nothing is skipped without a word. */
export function draftSheet(form: FormData, ground: DraftGround): DraftSheet {
  const lines = draftLines(form, ground)
  const build = buildOf(form, ground, lines)
  const unread = lines.flatMap(({ unread: one }) => one ?? [])
  const rows = new Set(unread.map(({ row }) => row))
  const whole = computeBuild(build)
  const { allergens, cautions, problems } = whole
  const readable = { ...build, lines: build.lines.filter(({ key }) => !rows.has(key)) }
  const figures = rows.size === 0 ? whole : { ...computeBuild(readable), allergens, cautions, problems }
  const named = lines.map(({ line }) => line)
  return { build, named, figures, unread, unreadFields: unreadOnSheet((name) => String(form.get(name) ?? '')) }
}

interface DraftLine {
  readonly unread: UnreadLine | null
  readonly ref: string
  readonly line: BuildLine
  /** what else may be poured in its place another day */
  readonly beside: readonly Part[]
}

/** A ref of a preparation, whichever batch of it. */
const ANY_BATCH = 'preparation:'

const NOT_IN_DATE =
  'No batch of it is in date: make one, or name something else. What is past its date is never poured.'

/** Every line with its grams; those of a share once all others are known. */
function draftLines(form: FormData, ground: DraftGround): DraftLine[] {
  const lines = typedLines(form, ground)
  const shares = gramsOfShares(
    lines.map(({ line }) => line),
    brewTyped(form),
  )
  const waits = lines.flatMap(({ line }, place) =>
    line.typed?.unit !== UNIT_PERCENT && Number.isNaN(line.targetGrams) ? [place + 1] : [],
  )
  return lines.map((one, place) => {
    const { key, typed } = one.line
    if (typed?.unit !== UNIT_PERCENT) return one
    if (shares.ok) return { ...one, line: { ...one.line, targetGrams: shares.value.get(key) ?? Number.NaN } }
    const message = waits.length > 0 ? sayShareWaits(waits) : sayShare(shares.reason, shares.detail)
    const unread = { row: key, number: place + 1, message }
    return { ...one, unread: one.unread ?? unread }
  })
}

function typedLines(form: FormData, { parts, currencyDigits }: DraftGround): DraftLine[] {
  const rows = new Set([...form.keys()].flatMap((name) => /^lines\[(\d+)\]/.exec(name)?.[1] ?? []))
  const placeOf = (row: string) => Number(form.get(`lines[${row}].place`) ?? row)
  return [...rows]
    .toSorted((a, b) => placeOf(a) - placeOf(b))
    .flatMap((row, place) => {
      const field = (name: string) => `lines[${row}].${name}`
      const written = (name: string) => String(form.get(field(name)) ?? '')
      const ref = written('part')
      if (written('amount').trim() === '' && ref === '') return []
      const known = parts.find((one) => one.ref === ref) ?? null
      const line = { one: written, all: (name: string) => form.getAll(field(name)).map(String) }
      const part = withPassing(known ?? newPart(line), line, currencyDigits)
      const dosed = dosedAmount(form, field, part)
      const dose = dosed?.dose ?? null
      const role = String(form.get(field('role')) ?? '')
      const poured = lineOf(part, {
        key: row,
        role: role === '' ? part.kind : role,
        // What cannot be read or weighed yet is asked for: the figures must not stand there as if the line were not.
        targetGrams: dose?.ok ? dose.value.grams : Number.NaN,
        typed: dosed?.typed ?? null,
        weighedGrams: number(form, field('weighed'), THOUSANDTHS),
        toleranceGrams: number(form, field('tolerance'), THOUSANDTHS),
        temperature: degrees(form, field('temperature')),
        grind: String(form.get(field('grind')) ?? '').trim() || null,
        ...(part.ref.startsWith(ANY_BATCH) && { anyBatch: true }),
      })
      const problem =
        unreadInLine(written) ??
        (part.preparation && isNotInDate(part.preparation) ? NOT_IN_DATE : null) ??
        (dose && !dose.ok ? ASK[dose.reason] : null)
      const unread = problem === null ? null : { row, number: place + 1, message: problem }
      return [{ ref: part.ref, line: poured, unread, beside: part.beside ?? [] }]
    })
}

const ASK: Readonly<Record<DoseRefusal | 'part-missing', string>> = {
  'part-missing': PART_MISSING,
  'density-missing': 'Typed as a volume: how many grams is a ml of it? Or type grams.',
  'pump-missing':
    'Typed in presses of a pump: nobody has measured yet what one gives. Say it where it is kept in the store, or type grams.',
}

/**
 * The amount as typed, and the grams that it is of this part; null where it cannot be read. Of a share the grams are not
 * known by itself: no dose.
 */
function dosedAmount(form: FormData, field: (name: string) => string, part: Part) {
  const amount = number(form, field('amount'), AMOUNT)
  if (amount === null) return null
  const unit = String(form.get(field('unit')) ?? 'g')
  const typed = { amount, unit, density: null }
  if (unit === UNIT_PERCENT) return { typed, dose: null }
  if (unit === PART) {
    const partGrams = number(form, 'partGrams', PART_GRAMS)
    if (partGrams === null) return { typed, dose: no('part-missing') }
    return { typed: { ...typed, partGrams }, dose: ok({ grams: amount * partGrams }) }
  }
  const density = number(form, field('density'), DENSITY)
  const of = String(form.get(field('densityFor')) ?? '')
  const dose = doseOf({ amount, unit }, part.ref, part, density === null ? null : { value: density, of })
  return { typed: { ...typed, density: dose.ok ? dose.value.density : null }, dose }
}

/** The alternatives that go with the lines as they stand: those of a line that is made of something else by now are gone. */
function alternativesOf(lines: readonly DraftLine[], all: readonly DraftAlternative[]): Alternative[] {
  return lines.flatMap(({ ref, line: { key, targetGrams } }, place) => {
    const before = lines.slice(0, place).filter((one) => one.ref === ref).length
    return all
      .filter((one) => one.part === ref && one.before === before)
      .map(({ level, other }) => ({ key, level, line: lineOf(other, { key, role: other.kind, targetGrams }) }))
  })
}
