import { Complaint } from './complaint'

/** Part of a row → how many different values of it can be answered for in seconds. */
export type Limits = Readonly<Record<string, number>>

// Far above what a house has: its largest panel, 200 seats × 6 cups × 30 aspects, is a file of 2 MB.
const MOST_BYTES = 32 * 2 ** 20
const MOST_COLUMNS = 1000
const MOST_CELLS = 5_000_000
/** With --by each part is an answer of its own; all of them together may have so many times what one may. */
const ALL_PARTS = 10

/** @throws Complaint  the file is too large to be read */
export function checkBytes(name: string, bytes: Uint8Array): void {
  if (bytes.length <= MOST_BYTES) return
  throw new Complaint(`${name}: is ${megabytes(bytes.length)} MB; a file may be ${megabytes(MOST_BYTES)} MB at most`)
}

/** @throws Complaint  the header is too wide */
export function checkColumns(name: string, line: number, columns: number): void {
  if (columns <= MOST_COLUMNS) return
  throw new Complaint(
    `${name} line ${line}, column ${MOST_COLUMNS + 1}: the header has ${columns} columns; ${MOST_COLUMNS} are the most`,
  )
}

/** @throws Complaint  there are too many rows for so many columns */
export function checkCells(name: string, rows: number, columns: number): void {
  if (rows * columns <= MOST_CELLS) return
  const most = Math.floor(MOST_CELLS / columns)
  throw new Complaint(
    `${name} line ${most + 1}: ${rows} rows of ${columns} columns; with so many, ${most} are the most`,
  )
}

interface Rows {
  readonly rows: readonly {
    text(part: string): string | null
    complain(part: string, wrong: string): Complaint
  }[]
}

/**
 * Counts the cups, terms or doses before anything is computed.
 *
 * @throws Complaint  at the row whose value is one too many: in one table, or in all of them together
 */
export function checkLabels(name: string, tables: readonly Rows[], limits: Limits): void {
  for (const [part, most] of Object.entries(limits)) {
    let all = 0
    for (const { rows } of tables) {
      const seen = new Set<string>()
      for (const row of rows) {
        const label = row.text(part)
        if (label === null || seen.has(label)) continue
        seen.add(label)
        if (seen.size > most) throw row.complain(part, `'${label}' is one more than the ${most} that can be compared`)
      }
      all += seen.size
    }
    if (all > most * ALL_PARTS) {
      throw new Complaint(
        `${name}: the parts of --by have ${all} different values of ${part} together; ${most * ALL_PARTS} are the most`,
      )
    }
  }
}

/** Every order of ranks of every taster counts where not everybody ranked every cup. */
const MOST_TASTERS_OF_PATCHWORK = 200

/** @throws Complaint  more tasters ranked some of the cups than can be answered for in seconds */
export function checkPatchwork({ name, rows }: Rows & { readonly name: string }): void {
  const ranked = rows.filter((row) => row.text('rank') !== null)
  const count = (part: string) => new Set(ranked.map((row) => row.text(part))).size
  const [tasters, cups] = [count('taster'), count('cup')]
  if (tasters <= MOST_TASTERS_OF_PATCHWORK || ranked.length === tasters * cups) return
  throw new Complaint(
    `${name}: not all of the ${tasters} tasters ranked every cup; ${MOST_TASTERS_OF_PATCHWORK} are the most then`,
  )
}

const megabytes = (bytes: number): string => (bytes / 2 ** 20).toFixed(1).replace(/\.0$/, '')
