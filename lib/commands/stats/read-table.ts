import { CsvError, parse } from 'csv-parse/sync'
import { Complaint, nearestOf } from './complaint'
import { checkBytes, checkCells, checkColumns, checkLabels, type Limits } from './size-limits'
import { decimal } from './decimal'
import { splitOnce } from './options'

/** One row of the file, by the column's own name. */
interface Line {
  readonly line: number
  readonly cells: ReadonlyMap<string, string>
}

/** A CSV file as it stands: header and rows, nothing interpreted. */
interface Sheet {
  readonly name: string
  readonly columns: readonly string[]
  readonly lines: readonly Line[]
}

/**
 * Reads RFC 4180 in UTF-8, with or without a byte-order mark. Spaces around a cell do not count.
 *
 * @throws Complaint  larger than `size-limits.ts` says, not UTF-8, empty, a header named twice or not at all, a row of another length, an open quote
 */
function readSheet(name: string, bytes: Uint8Array): Sheet {
  checkBytes(name, bytes)
  let text: string
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    throw new Complaint(`${name}: is not text in UTF-8`)
  }
  const [top] = recordsOf(name, text, 1)
  if (top) checkColumns(name, top.line, top.record.length)
  const [header, ...rows] = recordsOf(name, text)
  if (!header) throw new Complaint(`${name}: is empty`)
  checkCells(name, rows.length + 1, header.record.length)
  for (const [at, column] of header.record.entries()) {
    if (column === '') throw new Complaint(`${name} line ${header.line}, column ${at + 1}: the header has no name`)
    const first = header.record.indexOf(column)
    if (first !== at) {
      throw new Complaint(
        `${name} line ${header.line}, column ${at + 1}: the header '${column}' stands in column ${first + 1} too`,
      )
    }
  }
  const lines = rows.map(({ line, record }): Line => {
    if (record.length !== header.record.length) {
      throw new Complaint(
        `${name} line ${line}, column ${Math.min(record.length, header.record.length) + 1}: ` +
          `${record.length} cells where the header has ${header.record.length}`,
      )
    }
    return { line, cells: new Map(header.record.map((column, at) => [column, record[at] ?? ''])) }
  })
  return { name, columns: header.record, lines }
}

/** @param most  of the records, from the first; all if not said */
function recordsOf(name: string, text: string, most?: number): { line: number; record: string[] }[] {
  try {
    const ends: number[] = []
    const records = parse(text, {
      trim: true,
      relax_column_count: true,
      skip_empty_lines: true,
      ...(most === undefined ? {} : { to: most }),
      on_record: (record: string[], { lines }) => {
        ends.push(lines)
        return record
      },
    })
    return records.map((record, at) => ({
      line: (ends[at] ?? 0) - breaksWithin(record),
      record: record.map((cell) => cell.trim()),
    }))
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    const line = typeof error['lines'] === 'number' ? ` line ${error['lines']}` : ''
    const said =
      error.code === 'CSV_QUOTE_NOT_CLOSED' ? 'a quote is opened and not closed' : 'a quote stands inside a cell'
    throw new Complaint(`${name}${line}: ${said}`)
  }
}

const breaksWithin = (record: readonly string[]): number => record.join('').split('\n').length - 1

/** One row, by the part a column plays for the verb. */
export interface Row {
  readonly line: number
  /** never empty */
  label(part: string): string
  /** null where empty */
  text(part: string): string | null
  /** null where empty */
  number(part: string): number | null
  /** the sentence that names file, line and column */
  complain(part: string, wrong: string): Complaint
}

export interface Table {
  readonly name: string
  readonly rows: readonly Row[]
  has(part: string): boolean
}

/** Which columns a verb needs, which it takes when they are there, and what the call names them. */
export interface Wanted {
  readonly needed: readonly string[]
  readonly optional: readonly string[]
  /** part → column, from the options */
  readonly named: ReadonlyMap<string, string>
  /** "column=value" */
  readonly where: readonly string[]
  /** refuse a file in which a column `attribute` still varies */
  readonly oneAttribute: boolean
  /** part → how many different values it may have */
  readonly most: Limits
}

/**
 * Reads the file as the verb wants it.
 *
 * @throws Complaint  see `readSheet`; a column that is not there, a `--where` that keeps nothing, several attributes
 */
export function readTable(name: string, bytes: Uint8Array, wanted: Wanted): Table {
  const { lines, columns } = readLines(name, bytes, wanted)
  const table = tableOf(name, lines, columns, wanted)
  checkLabels(name, [table], wanted.most)
  return table
}

/** One value of the column that parts the file, with its rows or what is wrong with them. */
export interface Part {
  readonly value: string
  /** @throws Complaint  several attributes in this part */
  table(): Table
}

/**
 * The same, parted by the values of a column in the order in which they appear.
 *
 * @throws Complaint  as `readTable`, but for what is wrong with one part alone; a row without a value in that column
 */
export function readParts(name: string, bytes: Uint8Array, wanted: Wanted, by: string): Part[] {
  const { sheet, lines, columns } = readLines(name, bytes, wanted)
  if (!sheet.columns.includes(by)) {
    throw new Complaint(`${name} line 1, column ${by}: there is no such column${nearestOf(by, sheet.columns)}`)
  }
  const parts = new Map<string, Line[]>()
  for (const line of lines) {
    const value = line.cells.get(by) ?? ''
    if (value === '')
      throw new Complaint(`${name} line ${line.line}, column ${by}: is empty; --by needs a value in every row`)
    const part = parts.get(value)
    if (part) part.push(line)
    else parts.set(value, [line])
  }
  const rows = [...parts.values()].map((own) => ({ rows: own.map((line) => rowOf(name, line, columns)) }))
  checkLabels(name, rows, wanted.most)
  return [...parts].map(([value, own]) => ({ value, table: () => tableOf(name, own, columns, wanted) }))
}

function readLines(name: string, bytes: Uint8Array, wanted: Wanted) {
  const sheet = readSheet(name, bytes)
  const columns = new Map<string, string>()
  for (const part of [...wanted.needed, ...wanted.optional]) {
    const column = wanted.named.get(part) ?? part
    if (sheet.columns.includes(column)) columns.set(part, column)
    else if (wanted.needed.includes(part) || wanted.named.has(part)) {
      throw new Complaint(
        `${name} line 1, column ${column}: there is no such column for ${part}${nearestOf(column, sheet.columns)}` +
          ` (--${part} NAME names another)`,
      )
    }
  }
  const lines = wanted.where.reduce((kept, rule) => keep(sheet, kept, rule), sheet.lines)
  if (lines.length === 0) throw new Complaint(`${name}: there are no rows below the header`)
  return { sheet, lines, columns }
}

function tableOf(
  name: string,
  lines: readonly Line[],
  columns: ReadonlyMap<string, string>,
  { oneAttribute }: Wanted,
): Table {
  if (oneAttribute) checkOneAttribute(name, lines)
  return {
    name,
    rows: lines.map((line) => rowOf(name, line, columns)),
    has: (part) => columns.has(part),
  }
}

function keep(sheet: Sheet, lines: readonly Line[], rule: string): readonly Line[] {
  const [column, value] = splitOnce(rule, '=')
  if (value === undefined) throw new Complaint(`--where '${rule}' must read column=value`)
  if (!sheet.columns.includes(column)) {
    throw new Complaint(
      `${sheet.name} line 1, column ${column}: there is no such column${nearestOf(column, sheet.columns)}`,
    )
  }
  const kept = lines.filter(({ cells }) => cells.get(column) === value.trim())
  if (kept.length === 0) {
    const known = [...new Set(lines.map(({ cells }) => cells.get(column) ?? ''))].filter((one) => one !== '')
    throw new Complaint(`${sheet.name}, column ${column}: no row has '${value}'${nearestOf(value, known)}`)
  }
  return kept
}

function checkOneAttribute(name: string, lines: readonly Line[]): void {
  const first = lines[0]?.cells.get('attribute')
  const other = lines.find(({ cells }) => cells.get('attribute') !== first)
  if (!other) return
  throw new Complaint(
    `${name} line ${other.line}, column attribute: '${other.cells.get('attribute')}' after '${first}'; ` +
      'attributes are not replicates, choose one with --where attribute=NAME',
  )
}

function rowOf(name: string, { line, cells }: Line, columns: ReadonlyMap<string, string>): Row {
  const complain = (part: string, wrong: string): Complaint =>
    new Complaint(`${name} line ${line}, column ${columns.get(part) ?? part}: ${wrong}`)
  const text = (part: string): string | null => cells.get(columns.get(part) ?? '') || null
  return {
    line,
    complain,
    text,
    label(part) {
      const found = text(part)
      if (found === null) throw complain(part, 'is empty; every row needs one')
      return found
    },
    number(part) {
      const found = text(part)
      if (found === null) return null
      const value = decimal(found)
      if (typeof value === 'string') throw complain(part, value)
      return value
    },
  }
}
