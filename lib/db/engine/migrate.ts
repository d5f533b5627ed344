import 'server-only'
import { chmodSync, copyFileSync, existsSync, mkdirSync, renameSync, statSync } from 'node:fs'
import { dirname, join } from 'node:path'
import Database from 'better-sqlite3'
import { demand } from '@/lib/base/demand'
import { databaseFile } from '@/lib/base/read-environment.mjs'
import { findFault, type FaultName } from './fault'
import { discard, flush, holdAlone, isEmpty, keepCopy, settle } from './file-care'
import { listMigrations, needsCode, readMigration, withSchemaEngine } from './schema-engine'

export type MigrationRefusal =
  | { readonly reason: 'newer'; readonly unknown: string }
  | { readonly reason: 'in-use' | 'not-writable' | 'disk-full' | 'damaged' | 'unreachable' }
  | { readonly reason: 'failed'; readonly cause: string }

export type Migrated = {
  readonly applied: readonly string[]
  /** The copy of the database as it was before, when it held anything. */
  readonly copy: string | null
}

/**
 * The database as one migration left it, in plain SQL: the generated client knows the newest schema alone, and a step is read
 * for ever with the schema it was written for.
 */
export interface StepDatabase {
  all<Row>(sql: string, ...values: readonly (string | number | null)[]): Row[]
  run(sql: string, ...values: readonly (string | number | null)[]): void
}

/** What a migration asks of code beside its SQL. It runs right after that SQL, on the copy aside, in one transaction. */
export type CodeStep = (db: StepDatabase, now: Date) => void

/** The steps by the name of their migration. */
export type CodeSteps = Readonly<Record<string, CodeStep>>

/** The database was left as it was; the message says in one line what to do. */
export class MigrationRefused extends Error {
  override readonly name = 'MigrationRefused'
  constructor(
    readonly refusal: MigrationRefusal,
    file: string,
    options?: ErrorOptions,
  ) {
    super(sentence(refusal, file), options)
  }
}

/**
 * Brings a database file to the schema of this version; does nothing when it is there already.
 *
 * The work is done on a copy beside the file, which takes the file's place only when it is whole: a failure, or a power
 * cut in the middle, leaves the file as it was. Nobody else may have the file open meanwhile; that is checked. A migration
 * that asks for code is refused without it: a file never says that a migration is done whose code has not run.
 *
 * @param steps  the code of every migration that asks for some
 * @throws MigrationRefused
 */
export async function migrate(url: string, steps: CodeSteps, now: Date = new Date()): Promise<Migrated> {
  const file = databaseFile(url, process.cwd())
  demand(file !== null, `DATABASE_URL must be file: and a path, got ${url}`)
  try {
    const known = listMigrations()
    for (const name of known)
      demand(!needsCode(name) || steps[name] !== undefined, `${name} asks for code and was given none`)
    const applied = readApplied(file)
    const unknown = applied.find((name) => !known.includes(name))
    if (unknown !== undefined) throw new MigrationRefused({ reason: 'newer', unknown }, file)
    const missing = known.filter((name) => !applied.includes(name))
    if (missing.length === 0) return { applied: [], copy: null }
    return await migrateAside(file, known, missing, steps, now)
  } catch (error) {
    if (error instanceof MigrationRefused) throw error
    throw new MigrationRefused(refusalFor(error), file, { cause: error })
  }
}

async function migrateAside(
  file: string,
  known: readonly string[],
  missing: readonly string[],
  steps: CodeSteps,
  now: Date,
): Promise<Migrated> {
  mkdirSync(dirname(file), { recursive: true })
  const aside = `${file}.migrating`
  discard(aside)
  const holder = existsSync(file) ? holdAlone(file) : null
  try {
    const copy = holder && !isEmpty(holder) ? keepCopy(holder, file, `before-${missing[0] ?? ''}`, now) : null
    if (copy) copyFileSync(copy, aside)
    await applyInTurn(aside, known, missing, steps, now)
    settle(aside)
    chmodSync(aside, existsSync(file) ? statSync(file).mode : 0o600)
    renameSync(aside, file)
    flush(dirname(file))
    return { applied: missing, copy }
  } finally {
    holder?.close()
    discard(aside)
  }
}

/** SQL up to and with a migration that has code, its code, and on: each step meets the schema it was written for. */
async function applyInTurn(
  aside: string,
  known: readonly string[],
  missing: readonly string[],
  steps: CodeSteps,
  now: Date,
): Promise<void> {
  for (const [place, name] of known.entries()) {
    const step = missing.includes(name) ? steps[name] : undefined
    if (!step && place < known.length - 1) continue
    await withSchemaEngine(aside, (engine) => engine.apply(known.slice(0, place + 1).map(readMigration)))
    if (step) runStep(aside, step, now)
  }
}

function runStep(aside: string, step: CodeStep, now: Date): void {
  const db = new Database(aside)
  try {
    db.pragma('foreign_keys = ON')
    db.transaction(() =>
      step(
        {
          all: <Row>(sql: string, ...values: readonly (string | number | null)[]) =>
            db.prepare<unknown[], Row>(sql).all(...values),
          run: (sql, ...values) => void db.prepare<unknown[]>(sql).run(...values),
        },
        now,
      ),
    )()
  } finally {
    db.close()
  }
}

/** Names of the migrations that the file says are done. */
function readApplied(file: string): readonly string[] {
  if (!existsSync(file)) return []
  const db = new Database(file)
  try {
    if (isEmpty(db)) return []
    const hasTable = db.prepare(`SELECT 1 FROM sqlite_master WHERE name = '_prisma_migrations'`).get()
    if (!hasTable) throw new MigrationRefused({ reason: 'failed', cause: 'it holds tables of another program' }, file)
    const rows = db
      .prepare<[], { name: string }>(
        `SELECT migration_name AS name FROM _prisma_migrations
         WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL ORDER BY migration_name`,
      )
      .all()
    return rows.map((row) => row.name)
  } finally {
    db.close()
  }
}

const BY_FAULT: Partial<Record<FaultName, 'in-use' | 'not-writable' | 'disk-full' | 'damaged' | 'unreachable'>> = {
  busy: 'in-use',
  'not-writable': 'not-writable',
  'disk-full': 'disk-full',
  damaged: 'damaged',
  unreachable: 'unreachable',
}

const BY_SYSTEM_CODE: Readonly<Record<string, 'not-writable' | 'disk-full' | 'unreachable'>> = {
  EACCES: 'not-writable',
  EPERM: 'not-writable',
  EROFS: 'not-writable',
  ENOSPC: 'disk-full',
  EDQUOT: 'disk-full',
  ENOTDIR: 'unreachable',
  EEXIST: 'unreachable',
  EISDIR: 'unreachable',
}

function refusalFor(error: unknown): MigrationRefusal {
  const fault = findFault(error)
  const byFault = fault ? BY_FAULT[fault.name] : undefined
  if (byFault) return { reason: byFault }
  const code = error instanceof Error && 'code' in error ? String(error.code) : ''
  const bySystem = BY_SYSTEM_CODE[code]
  if (bySystem) return { reason: bySystem }
  return { reason: 'failed', cause: firstLine(error instanceof Error ? error.message : String(error)) }
}

function sentence(refusal: MigrationRefusal, file: string): string {
  switch (refusal.reason) {
    case 'newer':
      return `The database ${file} was made by a newer version (it knows "${refusal.unknown}"): update this program, or set DATABASE_URL to another file. Nothing was changed.`
    case 'in-use':
      return `The database ${file} must be brought up to date, but another program has it open: stop that one, then start again. Nothing was changed.`
    case 'not-writable':
      return `The database ${file} or its folder cannot be written: give yourself the right to write there, then start again.`
    case 'disk-full':
      return `The disk is full: make room where ${file} lies, then start again. Nothing was changed.`
    case 'damaged':
      return `${file} is not a sound database: put the newest copy from ${join(dirname(file), 'copies')} in its place. Nothing was changed.`
    case 'unreachable':
      return `The database ${file} cannot be opened: check the path and the disk, then start again.`
    case 'failed':
      return `The database ${file} could not be brought up to date (${refusal.cause}). Nothing was changed; please report it.`
  }
}

function firstLine(text: string): string {
  return text.trim().split('\n')[0]?.slice(0, 200) ?? ''
}
