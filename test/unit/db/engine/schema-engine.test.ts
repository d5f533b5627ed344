import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { listMigrations, MIGRATIONS, readMigration, SCHEMA, withSchemaEngine } from '@/lib/db/engine/schema-engine'

const schema = readFileSync(SCHEMA, 'utf8')

/** Tables, columns, keys and indexes; where a column stands in its table tells nothing, for an added one stands last. */
function shapeAfter(scripts: readonly string[]): readonly unknown[] {
  const db = new Database(':memory:')
  for (const sql of scripts) db.exec(sql)
  const tables = db
    .prepare<[], { name: string }>("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
    .all()
  const shape = tables.map(({ name }) => ({
    name,
    columns: db
      .prepare('SELECT name, type, "notnull", dflt_value, pk FROM pragma_table_info(?) ORDER BY name')
      .all(name),
    keys: db
      .prepare('SELECT "from", "table", "to", on_update, on_delete FROM pragma_foreign_key_list(?) ORDER BY 1, 2, 3')
      .all(name),
    indexes: db
      .prepare("SELECT name, sql FROM sqlite_master WHERE type = 'index' AND tbl_name = ? ORDER BY name")
      .all(name),
  }))
  db.close()
  return shape
}

test('the newest migration leads to prisma/schema.prisma', () => {
  const newest = listMigrations().at(-1) ?? ''
  expect(readFileSync(join(MIGRATIONS, newest, 'schema.prisma'), 'utf8')).toBe(schema)
})

test('the checked-in SQL, one after another, makes the database the schema describes', async () => {
  const direct = await withSchemaEngine(':memory:', (engine) => engine.difference(null, schema))
  expect(shapeAfter(listMigrations().map((name) => readMigration(name).sql))).toEqual(shapeAfter([direct]))
})

test('every migration is numbered in order and keeps the schema it leads to', () => {
  const names = listMigrations()
  expect(names.length).toBeGreaterThan(0)
  names.forEach((name, i) => expect(name).toMatch(new RegExp(`^${String(i + 1).padStart(4, '0')}-[a-z0-9-]+$`)))
})

test('a column added to the schema becomes SQL that adds it and keeps what is there', async () => {
  const head = 'datasource db {\n provider = "sqlite"\n}'
  const from = `${head}\nmodel Cup {\n id String @id\n}\n`
  const to = `${head}\nmodel Cup {\n id String @id\n note String?\n}\n`
  const [first, next] = await withSchemaEngine(':memory:', async (engine) => [
    await engine.difference(null, from),
    await engine.difference(from, to),
  ])
  const db = new Database(':memory:')
  db.exec(first ?? '')
  db.exec(`INSERT INTO "Cup" VALUES ('a')`)
  db.exec(next ?? '')
  expect(db.prepare('SELECT * FROM "Cup"').all()).toEqual([{ id: 'a', note: null }])
  db.close()
})
