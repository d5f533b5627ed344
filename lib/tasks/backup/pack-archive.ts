import 'server-only'
import { createHash } from 'node:crypto'
import { createWriteStream } from 'node:fs'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { stringify } from 'csv-stringify/sync'
import { ZipFile } from 'yazl'
import { PROGRAM_VERSION } from '@/lib/base/program'
import type { Stored, StoredTable, WholeFile } from '@/lib/db/engine/whole-file'
import { FORMAT_VERSION, MANIFEST_PATH, type BackupManifest } from '@/lib/forms/backup-manifest'
import { rowLine } from '@/lib/forms/backup-row'

/** Rows that are written as one piece: few enough to be held, many enough to go fast. */
const AT_ONCE = 500

const asCsv = {
  escape_formulas: true,
  record_delimiter: 'windows',
  quoted_match: /^$/, // an empty text is not nothing
  cast: { boolean: String, object: (value: object) => (value instanceof Uint8Array ? base64(value) : '') },
} as const

/**
 * Writes every row of a database into a zip that only its owner can read; nothing is held but a few hundred rows.
 *
 * @param target  must not be there
 * @returns what the manifest in it says
 */
export async function packArchive(house: WholeFile, target: string, madeAt: Date): Promise<BackupManifest> {
  const zip = new ZipFile()
  const how = { mtime: madeAt, mode: 0o100600 }
  const manifest: BackupManifest = {
    format: 'sipwright-backup',
    formatVersion: FORMAT_VERSION,
    program: PROGRAM_VERSION,
    madeAt: madeAt.toISOString(),
    migrations: [...house.migrations],
    tables: [],
    files: [],
  }
  const add = (path: string, pieces: () => Iterable<string>) =>
    zip.addReadStreamLazy(path, how, (give) => give(null, Readable.from(noted(manifest, path, pieces()))))

  for (const table of house.tables) {
    const [jsonl, csv] = [`tables/${table.name}.jsonl`, `tables/${table.name}.csv`]
    const kept = { name: table.name, columns: [...table.columns], rows: 0, jsonl, csv }
    manifest.tables.push(kept)
    add(jsonl, () => jsonPieces(house, table, (rows) => (kept.rows += rows)))
    add(csv, () => csvPieces(house, table))
  }
  // comes last, when everything before it is counted
  zip.addReadStreamLazy(MANIFEST_PATH, how, (give) =>
    give(null, Readable.from([`${JSON.stringify(manifest, null, 2)}\n`])),
  )
  zip.end()

  const file = createWriteStream(target, { flags: 'wx', mode: 0o600 })
  const failed = new Promise<never>((_, reject) => zip.once('error', reject))
  try {
    await Promise.race([pipeline(zip.outputStream, file), failed])
  } finally {
    file.destroy()
  }
  return manifest
}

function* noted(manifest: BackupManifest, path: string, pieces: Iterable<string>): Iterable<Buffer> {
  const sum = createHash('sha256')
  let bytes = 0
  for (const piece of pieces) {
    const buffer = Buffer.from(piece)
    sum.update(buffer)
    bytes += buffer.length
    yield buffer
  }
  manifest.files.push({ path, bytes, sha256: sum.digest('hex') })
}

function* jsonPieces(house: WholeFile, table: StoredTable, count: (rows: number) => void): Iterable<string> {
  for (const rows of inPieces(house.rows(table))) {
    count(rows.length)
    yield rows.map((row) => `${rowLine(table.columns, row)}\n`).join('')
  }
}

function* csvPieces(house: WholeFile, table: StoredTable): Iterable<string> {
  yield stringify([table.columns.map(({ name }) => name)], asCsv)
  for (const rows of inPieces(house.rows(table))) yield stringify([...rows], asCsv)
}

function* inPieces(rows: Iterable<readonly Stored[]>): Iterable<(readonly Stored[])[]> {
  let piece: (readonly Stored[])[] = []
  for (const row of rows) {
    piece.push(row)
    if (piece.length < AT_ONCE) continue
    yield piece
    piece = []
  }
  if (piece.length > 0) yield piece
}

function base64(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('base64')
}
