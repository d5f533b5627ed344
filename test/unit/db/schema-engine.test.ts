import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { listMigrations, MIGRATIONS, readMigration, SCHEMA, withSchemaEngine } from '@/lib/db/schema-engine'

const schema = readFileSync(SCHEMA, 'utf8')

function shapeAfter(scripts: readonly string[]): readonly unknown[] {
  const db = new Database(':memory:')
  for (const sql of scripts) db.exec(sql)
  const shape = db.prepare('SELECT type, name, sql FROM sqlite_master ORDER BY type, name').all()
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
