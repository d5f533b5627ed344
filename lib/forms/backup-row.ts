import { RowValue } from './backup-manifest'

type Columns = readonly { readonly name: string; readonly type: string }[]
type Value = null | boolean | bigint | number | string | Uint8Array

/** One row as a line of JSON, without its end. @param values  in the order of the columns */
export function rowLine(columns: Columns, values: readonly Value[]): string {
  const row: Record<string, unknown> = {}
  columns.forEach(({ name, type }, place) => (row[name] = toJson(values[place] ?? null, type === 'real')))
  return JSON.stringify(row)
}

/** The values of a line in the order of the columns; null when it is no row with exactly these columns. */
export function readRowLine(columns: Columns, line: string): Value[] | null {
  const row = parsed(line)
  if (row === null || Object.keys(row).length !== columns.length) return null
  const values: Value[] = []
  for (const { name, type } of columns) {
    const value = Object.hasOwn(row, name) ? fromJson(row[name], type === 'real') : undefined
    if (value === undefined) return null
    values.push(value)
  }
  return values
}

function toJson(value: Value, isReal: boolean): unknown {
  if (typeof value === 'bigint') {
    const number = Number(value)
    return Number.isSafeInteger(number) ? number : { integer: String(value) }
  }
  if (typeof value === 'number') {
    const looksWhole = Number.isSafeInteger(value) && !isReal
    return looksWhole || !Number.isFinite(value) ? { real: String(value) } : value
  }
  return value instanceof Uint8Array ? { bytes: Buffer.from(value).toString('base64') } : value
}

function fromJson(value: unknown, isReal: boolean): Value | undefined {
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return value
  if (typeof value === 'number') return Number.isSafeInteger(value) && !isReal ? BigInt(value) : value
  const read = RowValue.safeParse(value)
  if (!read.success || typeof read.data !== 'object' || read.data === null) return undefined
  if ('integer' in read.data) {
    const whole = BigInt(read.data.integer)
    return BigInt.asIntN(64, whole) === whole ? whole : undefined // no database keeps longer ones
  }
  return 'real' in read.data ? Number(read.data.real) : Buffer.from(read.data.bytes, 'base64')
}

function parsed(line: string): Readonly<Record<string, unknown>> | null {
  try {
    const row: unknown = JSON.parse(line)
    const isRow = typeof row === 'object' && row !== null && !Array.isArray(row)
    return isRow ? (row as Readonly<Record<string, unknown>>) : null
  } catch {
    return null
  }
}
