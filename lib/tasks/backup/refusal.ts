import 'server-only'
import { findFault } from '@/lib/db/engine/fault'
import { MigrationRefused } from '@/lib/db/engine/migrate'

export type BackupRefusal =
  | 'file-is-there' // a backup never overwrites
  | 'no-database'
  | 'not-an-archive'
  | 'damaged' // detail: what of it
  | 'newer' // detail: what it knows
  | 'has-files' // this version keeps none, and would lose them
  | 'too-big' // unpacked it does not fit
  | 'database-is-there'
  | 'in-use'
  | 'not-writable'
  | 'disk-full'
  | 'not-found'

/** Nothing was changed, nothing half made is left; the message says in one line what to do. */
export class BackupRefused extends Error {
  override readonly name = 'BackupRefused'
  constructor(
    readonly reason: BackupRefusal,
    readonly file: string,
    detail = '',
    options?: ErrorOptions,
  ) {
    super(SAY[reason](file, detail), options)
  }
}

const SAY: Readonly<Record<BackupRefusal, (file: string, detail: string) => string>> = {
  'file-is-there': (file) => `${file} is there already: give another name, a backup never overwrites.`,
  'no-database': (file) => `There is no database of a house at ${file}: check DATABASE_URL if you set one.`,
  'not-an-archive': (file) => `${file} is no backup of this program. Nothing was changed.`,
  damaged: (file, detail) => `The backup ${file} is damaged (${detail}): take another one. Nothing was changed.`,
  newer: (file, detail) =>
    `The backup ${file} was made by a newer version (it knows ${detail}): update this program first. Nothing was changed.`,
  'has-files': (file, detail) =>
    `The backup ${file} holds files that this version does not keep (${detail}): update this program first. Nothing was changed.`,
  'too-big': (file, detail) =>
    `The backup ${file} does not fit, ${detail}: make room on the disk of the database. Nothing was changed.`,
  'database-is-there': (file) =>
    `There is a database at ${file} already: add --overwrite to put the backup in its place, a copy of it is kept then. Nothing was changed.`,
  'in-use': (file) =>
    `Another program has the database ${file} open: stop that one, then try again. Nothing was changed.`,
  'not-writable': (file) => `${file} cannot be written: give yourself the right to write there. Nothing was changed.`,
  'disk-full': (file) => `The disk is full: make room where ${file} lies, then try again. Nothing was changed.`,
  'not-found': (file) => `${file} cannot be read: check the path. Nothing was changed.`,
}

const BY_SYSTEM_CODE: Readonly<Record<string, BackupRefusal>> = {
  EACCES: 'not-writable',
  EPERM: 'not-writable',
  EROFS: 'not-writable',
  ENOTDIR: 'not-writable',
  EISDIR: 'not-writable',
  EEXIST: 'not-writable',
  ENOENT: 'not-found',
  ENOSPC: 'disk-full',
  EDQUOT: 'disk-full',
}

/** What the machine or the database said, as a refusal about a file; anything else stays what it is. */
export function refusalFor(error: unknown, file: string): unknown {
  if (error instanceof BackupRefused || error instanceof MigrationRefused) return error
  const code = error instanceof Error && 'code' in error ? String(error.code) : ''
  const reason = BY_SYSTEM_CODE[code] ?? byFault(error)
  return reason === undefined ? error : new BackupRefused(reason, file, '', { cause: error })
}

function byFault(error: unknown): BackupRefusal | undefined {
  switch (findFault(error)?.name) {
    case 'busy':
      return 'in-use'
    case 'disk-full':
      return 'disk-full'
    case 'not-writable':
      return 'not-writable'
    case 'damaged':
    case 'unreachable':
      return 'no-database'
    default:
      return undefined
  }
}
