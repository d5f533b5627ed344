import { readFileSync } from 'node:fs'
import Ajv2020 from 'ajv/dist/2020'
import { expect, test } from 'vitest'
import { BackupManifest, backupSchema } from '@/lib/forms/backup-manifest'

const schema: object = JSON.parse(readFileSync('lib/forms/backup.schema.json', 'utf8'))
const validate = new Ajv2020({ strict: true, allErrors: true, formats: { 'date-time': true } }).compile(schema)

const sha256 = '0'.repeat(64)
const example = () => ({
  format: 'sipwright-backup',
  formatVersion: 1,
  program: '0.1.0',
  madeAt: '2026-11-27T09:00:00.000Z',
  migrations: ['0001-start'],
  tables: [
    {
      name: 'Vessel',
      columns: [{ name: 'id', type: 'text' }],
      rows: 2,
      jsonl: 'tables/Vessel.jsonl',
      csv: 'tables/Vessel.csv',
    },
  ],
  files: [{ path: 'tables/Vessel.jsonl', bytes: 20, sha256 }],
})

test('the schema kept in the repository is the one the code checks with', () => {
  expect(schema).toEqual(JSON.parse(JSON.stringify(backupSchema())))
})

test('a place for files is kept', () => {
  const manifest = example()
  manifest.files.push({ path: 'files/2026/cup.jpg', bytes: 3, sha256 })
  expect(validate(manifest)).toBe(true)
  expect(BackupManifest.safeParse(manifest).success).toBe(true)
})

type Example = ReturnType<typeof example>
test.each<[string, (manifest: Example) => unknown]>([
  ['another kind of file', (manifest) => (manifest.format = 'recipe')],
  ['a later form', (manifest) => (manifest.formatVersion = 2)],
  ['no version', (manifest) => (manifest.migrations = [])],
  ['a path that climbs out', (manifest) => manifest.files.push({ path: 'files/../../secret', bytes: 1, sha256 })],
  ['an absolute path', (manifest) => manifest.files.push({ path: '/etc/hosts', bytes: 1, sha256 })],
  ['a hidden file', (manifest) => manifest.files.push({ path: 'files/.hidden', bytes: 1, sha256 })],
  ['a path elsewhere', (manifest) => manifest.files.push({ path: 'manifest.json', bytes: 1, sha256 })],
  ['half a sum', (manifest) => manifest.files.push({ path: 'files/a', bytes: 1, sha256: 'abc' })],
  ['fewer than no rows', (manifest) => manifest.tables.forEach((table) => (table.rows = -1))],
  ['a table name that is more than a name', (manifest) => manifest.tables.forEach((table) => (table.name = 'a"; --'))],
])('%s is refused by the schema and by the code', (_what, spoil) => {
  const manifest = example()
  spoil(manifest)
  expect(validate(manifest)).toBe(false)
  expect(BackupManifest.safeParse(manifest).success).toBe(false)
})
