import 'server-only'
import { createHash } from 'node:crypto'
import { crc32 } from 'node:zlib'
import { openPromise, type Entry, type ZipFile } from 'yauzl'
import {
  BackupManifest,
  BackupMark,
  FORMAT_VERSION,
  MANIFEST_PATH,
  type BackupTable,
} from '@/lib/forms/backup-manifest'
import { readRowLine } from '@/lib/forms/backup-row'
import { BackupRefused, refusalFor } from './refusal'
import type { Stored } from '@/lib/db/engine/whole-file'

/** No manifest of ours comes near; what is larger was made to do harm. */
const MANIFEST_BYTES = 10e6
const ENTRIES = 100_000
const LINE_CHARACTERS = 64e6

export interface Archive {
  readonly manifest: BackupManifest
  /** Rows of a table, some at a time, values in the order of its columns. @throws BackupRefused  not what the manifest says */
  rows(table: BackupTable): AsyncIterable<readonly (readonly Stored[])[]>
  /** Reads a file to its end. @throws BackupRefused */
  check(path: string): Promise<void>
  close(): void
}

/**
 * Opens a backup and believes nothing in it: its files must be those that its manifest lists, no more, no fewer, no larger.
 *
 * @throws BackupRefused
 */
export async function openArchive(file: string): Promise<Archive> {
  let zip: ZipFile
  try {
    zip = await openPromise(file, { lazyEntries: true, autoClose: false, strictFileNames: true })
  } catch (error) {
    const refusal = refusalFor(error, file)
    throw refusal instanceof BackupRefused ? refusal : new BackupRefused('not-an-archive', file, '', { cause: error })
  }
  try {
    const entries = await listEntries(zip, file)
    const manifest = await readManifest(zip, entries, file)
    checkList(manifest, entries, file)
    const bytes = (path: string) => checkedBytes(zip, entries, manifest, path, file)
    return {
      manifest,
      rows: (table) => checkedRows(bytes(table.jsonl), table, file),
      check: async (path) => {
        for await (const _ of bytes(path));
      },
      close: () => zip.close(),
    }
  } catch (error) {
    zip.close()
    throw error
  }
}

type Entries = ReadonlyMap<string, Entry>

const damaged = (file: string, what: string, cause?: unknown) => new BackupRefused('damaged', file, what, { cause })

async function listEntries(zip: ZipFile, file: string): Promise<Entries> {
  const entries = new Map<string, Entry>()
  try {
    if (zip.entryCount > ENTRIES) throw damaged(file, `it lists ${zip.entryCount} files`)
    for await (const entry of zip.eachEntry()) {
      if (entries.has(entry.fileName)) throw damaged(file, `${entry.fileName} is in it twice`)
      if (entry.isEncrypted()) throw damaged(file, `${entry.fileName} is encrypted`)
      entries.set(entry.fileName, entry)
    }
  } catch (error) {
    // also names that are absolute or climb out: the reader refuses them
    throw error instanceof BackupRefused ? error : damaged(file, 'its list of files cannot be read', error)
  }
  return entries
}

async function readManifest(zip: ZipFile, entries: Entries, file: string): Promise<BackupManifest> {
  const entry = entries.get(MANIFEST_PATH)
  if (!entry) throw new BackupRefused('not-an-archive', file)
  if (entry.uncompressedSize > MANIFEST_BYTES) throw damaged(file, `${MANIFEST_PATH} is too long`)
  const said = parsed(await wholeText(zip, entry, file))
  const mark = BackupMark.safeParse(said)
  if (!mark.success) throw new BackupRefused('not-an-archive', file)
  if (mark.data.formatVersion > FORMAT_VERSION) {
    throw new BackupRefused('newer', file, `form ${mark.data.formatVersion} of backups`)
  }
  const manifest = BackupManifest.safeParse(said)
  if (!manifest.success) throw damaged(file, `${MANIFEST_PATH} is not as it should be`)
  return manifest.data
}

/** Nothing lists the sum of the manifest; the zip's own check stands for it. */
async function wholeText(zip: ZipFile, entry: Entry, file: string): Promise<string> {
  const pieces: Buffer[] = []
  try {
    for await (const piece of await zip.openReadStreamPromise(entry)) pieces.push(piece as Buffer)
  } catch (error) {
    throw damaged(file, `${entry.fileName} cannot be read`, error)
  }
  const bytes = Buffer.concat(pieces)
  if (crc32(bytes) !== entry.crc32) throw damaged(file, `${entry.fileName} is not as it was written`)
  return bytes.toString('utf8')
}

function checkList(manifest: BackupManifest, entries: Entries, file: string): void {
  const listed = new Map(manifest.files.map((one) => [one.path, one]))
  if (listed.size !== manifest.files.length) throw damaged(file, `${MANIFEST_PATH} lists a file twice`)
  for (const { path, bytes } of manifest.files) {
    const entry = entries.get(path)
    if (!entry) throw damaged(file, `${path} is missing`)
    if (entry.uncompressedSize !== bytes) throw damaged(file, `${path} has another length than it should`)
  }
  const stray = [...entries.keys()].find((path) => path !== MANIFEST_PATH && !listed.has(path))
  if (stray !== undefined) throw damaged(file, `${stray} is in it and not in its list`)
  for (const { name, jsonl, csv } of manifest.tables) {
    if (!listed.has(jsonl) || !listed.has(csv)) throw damaged(file, `the table ${name} is missing`)
  }
  const names = new Set(manifest.tables.flatMap(({ name, jsonl }) => [name, jsonl]))
  if (names.size !== 2 * manifest.tables.length) throw damaged(file, `${MANIFEST_PATH} lists a table twice`)
}

async function* checkedBytes(
  zip: ZipFile,
  entries: Entries,
  manifest: BackupManifest,
  path: string,
  file: string,
): AsyncIterable<Buffer> {
  const entry = entries.get(path)
  const listed = manifest.files.find((one) => one.path === path)
  if (!entry || !listed) throw damaged(file, `${path} is missing`)
  const sum = createHash('sha256')
  try {
    // ends by itself where a file is longer than its entry says
    for await (const piece of await zip.openReadStreamPromise(entry)) {
      sum.update(piece as Buffer)
      yield piece as Buffer
    }
  } catch (error) {
    throw damaged(file, `${path} cannot be read`, error)
  }
  if (sum.digest('hex') !== listed.sha256) throw damaged(file, `${path} has another sum than it should`)
}

async function* checkedRows(
  bytes: AsyncIterable<Buffer>,
  table: BackupTable,
  file: string,
): AsyncIterable<readonly (readonly Stored[])[]> {
  let rows = 0
  for await (const lines of linesOf(bytes, table, file)) {
    yield lines.map((line) => {
      const values = readRowLine(table.columns, line)
      rows++
      if (values === null) throw damaged(file, `row ${rows} of ${table.name} cannot be read`)
      return values
    })
  }
  if (rows !== table.rows) throw damaged(file, `${table.name} has ${rows} rows and should have ${table.rows}`)
}

/** Whole lines, as many at once as came in one piece. */
async function* linesOf(
  bytes: AsyncIterable<Buffer>,
  { name }: BackupTable,
  file: string,
): AsyncIterable<readonly string[]> {
  const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true })
  let begun: string[] = [] // the line whose end has not come yet
  let length = 0
  for await (const piece of bytes) {
    const [first = '', ...more] = decodePiece(decoder, piece, name, file).split('\n')
    begun.push(first)
    length += first.length
    if (length > LINE_CHARACTERS) throw damaged(file, `a row of ${name} has no end`)
    const last = more.pop()
    if (last === undefined) continue
    yield [begun.join(''), ...more]
    begun = [last]
    length = last.length
  }
  if (length > 0) throw damaged(file, `the last row of ${name} is cut off`)
}

function decodePiece(decoder: TextDecoder, piece: Buffer, table: string, file: string): string {
  try {
    return decoder.decode(piece, { stream: true })
  } catch (error) {
    throw damaged(file, `${table} is not text`, error)
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
