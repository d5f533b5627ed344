/**
 * Writes the next migration: the SQL from the last migration's schema to prisma/schema.prisma.
 *
 *     npm run migration -- NAME [--replace-last]
 *
 * Each migration keeps the schema it leads to beside its SQL, so that the next one needs no database.
 * --replace-last writes the last one anew; only before it is released, for a released migration is never edited.
 */
import { copyFileSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { listMigrations, MIGRATIONS, SCHEMA, withSchemaEngine } from '@/lib/db/engine/schema-engine'

const args = process.argv.slice(2)
const replacesLast = args.includes('--replace-last')
const name = args.find((arg) => !arg.startsWith('--')) ?? ''
if (!/^[a-z0-9]+(-[a-z0-9]+)*$/.test(name)) {
  console.error('Give the migration a name in lower-case words, like: npm run migration -- tray-colours')
  process.exit(1)
}

const all = listMigrations()
const before = replacesLast ? all.slice(0, -1) : all
const last = before.at(-1)
const previous = last === undefined ? null : readFileSync(join(MIGRATIONS, last, 'schema.prisma'), 'utf8')
const wanted = readFileSync(SCHEMA, 'utf8')

const sql = await withSchemaEngine(':memory:', (engine) => engine.difference(previous, wanted))
if (/^--\s*This is an empty migration/m.test(sql) || sql.trim() === '') {
  console.log('The schema has not changed since the last migration: nothing written.')
  process.exit(0)
}

const replaced = all.at(-1)
if (replacesLast && replaced !== undefined) rmSync(join(MIGRATIONS, replaced), { recursive: true })
const folder = join(MIGRATIONS, `${String(before.length + 1).padStart(4, '0')}-${name}`)
if (existsSync(folder)) throw new Error(`${folder} is there already`)
mkdirSync(folder, { recursive: true })
writeFileSync(join(folder, 'migration.sql'), sql)
copyFileSync(SCHEMA, join(folder, 'schema.prisma'))
console.log(`Written: ${join(folder, 'migration.sql')}. Read it before you commit it.`)
