import * as z from 'zod'

/** The newest form of the archive that this program knows; it rises when an older program could no longer read it. */
export const FORMAT_VERSION = 1
export const MANIFEST_PATH = 'manifest.json'

const name = z.string().regex(/^[A-Za-z_][A-Za-z0-9_]*$/)
const path = z
  .string()
  .regex(/^(tables|files)(\/[A-Za-z0-9_][A-Za-z0-9._-]*)+$/)
  .describe('Path in the archive; no part of it begins with a dot')
const count = z.int().min(0)

const BackupTable = z.strictObject({
  name,
  columns: z.array(
    z.strictObject({
      name,
      type: z.enum(['text', 'integer', 'real', 'boolean', 'time', 'bytes']).describe('time: ISO 8601 as it was kept'),
    }),
  ),
  rows: count,
  jsonl: path.describe('One row a line; this is what is restored'),
  csv: path.describe(
    'The same rows for other programs, RFC 4180: nothing is null, "" is an empty text, bytes in base64, and a text that begins like a formula has an apostrophe before it',
  ),
})

/**
 * What an archive says about itself in `manifest.json`. The JSON Schema of it, and of a row, is `backup.schema.json`.
 */
export const BackupManifest = z
  .strictObject({
    format: z.literal('sipwright-backup'),
    formatVersion: z.literal(FORMAT_VERSION),
    program: z.string().min(1).describe('Version of the program that made it'),
    madeAt: z.iso.datetime().describe('UTC; everything that was kept before is in it'),
    migrations: z
      .array(z.string().min(1))
      .min(1)
      .describe('Version of the schema: the names of its migrations, oldest first'),
    tables: z.array(BackupTable),
    files: z
      .array(
        z.strictObject({
          path,
          bytes: count,
          sha256: z.string().regex(/^[0-9a-f]{64}$/),
        }),
      )
      .describe('Every file of the archive but this one; what the house keeps as files lies under files/'),
  })
  .describe('manifest.json of a backup of Sipwright')

export type BackupManifest = z.infer<typeof BackupManifest>
export type BackupTable = z.infer<typeof BackupTable>

/** Enough of a manifest to tell a newer one from a broken one. */
export const BackupMark = z.looseObject({ format: z.literal('sipwright-backup'), formatVersion: z.number() })

/** A value of a row. What JSON cannot say plainly is an object that names its kind. */
export const RowValue = z.union([
  z.null(),
  z.boolean(),
  z.number(),
  z.string(),
  z.strictObject({ integer: z.string().regex(/^-?\d+$/) }).describe('A whole number beyond 2^53'),
  z.strictObject({ real: z.string() }).describe('A fraction that looks like a whole number, or is infinite'),
  z.strictObject({ bytes: z.string().regex(/^[A-Za-z0-9+/]*={0,2}$/) }).describe('In base64'),
])

const Row = z.record(name, RowValue).describe('One line of a .jsonl file: the columns of its table and their values')

/** JSON Schema (draft 2020-12): of the manifest, and as `#/$defs/row` of a line. Counts and sums are checked beyond it. */
export function backupSchema(): object {
  const { $schema: _same, ...row } = z.toJSONSchema(Row, { io: 'input' })
  return { ...z.toJSONSchema(BackupManifest, { io: 'input' }), $defs: { row } }
}
