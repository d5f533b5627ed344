import 'server-only'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { PrismaBetterSqlite3 } from '@prisma/adapter-better-sqlite3'
import {
  bindMigrationAwareSqlAdapterFactory,
  type SqlDriverAdapter,
  type SqlMigrationAwareDriverAdapterFactory,
} from '@prisma/driver-adapter-utils'
import type { DiffTarget, SchemaEngine } from '@prisma/schema-engine-wasm'

// Prisma's own migrate command downloads a schema engine; the same engine ships on npm as WebAssembly. This is the one
// file that knows how it is called. The build must match @prisma/client: both are pinned in package.json.

export const MIGRATIONS = join(process.cwd(), 'prisma', 'migrations')
export const SCHEMA = join(process.cwd(), 'prisma', 'schema.prisma')
const LOCK_FILE = 'migration_lock.toml'
const EVERYTHING = { externalTables: [], externalEnums: [] }

export type Migration = { readonly name: string; readonly sql: string }

/** Names of the checked-in migrations, oldest first. */
export function listMigrations(): readonly string[] {
  return readdirSync(MIGRATIONS, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && existsSync(join(MIGRATIONS, entry.name, 'migration.sql')))
    .map((entry) => entry.name)
    .sort()
}

/** A migration whose folder holds this file asks for code beside its SQL; the file says what for. */
const ASKS_FOR_CODE = 'code.md'

export function needsCode(name: string): boolean {
  return existsSync(join(MIGRATIONS, name, ASKS_FOR_CODE))
}

export function readMigration(name: string): Migration {
  return { name, sql: readFileSync(join(MIGRATIONS, name, 'migration.sql'), 'utf8') }
}

type Engine = {
  /** Applies what the database does not have yet, in the order given. */
  apply(migrations: readonly Migration[]): Promise<void>
  /** SQL that leads from one schema text to another; null stands for an empty database. */
  difference(from: string | null, to: string): Promise<string>
}

/** @param file  database to work on, or ':memory:' when only schemas are compared */
export async function withSchemaEngine<T>(file: string, work: (engine: Engine) => Promise<T>): Promise<T> {
  const { SchemaEngine } = await loadEngine()
  const opened: SqlDriverAdapter[] = []
  const adapter = bindMigrationAwareSqlAdapterFactory(remembering(new PrismaBetterSqlite3({ url: file }), opened))
  const models: [string, string][] = [[SCHEMA, readFileSync(SCHEMA, 'utf8')]]
  const engine = await SchemaEngine.new({ datamodels: models }, () => undefined, adapter)
  try {
    return await work({
      apply: async (migrations) => {
        await engine.applyMigrations({ migrationsList: migrationList(migrations), filters: EVERYTHING })
      },
      difference: async (from, to) => {
        const { stdout } = await engine.diff({
          from: from === null ? { tag: 'empty' } : target(from),
          to: target(to),
          script: true,
          exitCode: null,
          filters: EVERYTHING,
        })
        return stdout ?? ''
      },
    })
  } finally {
    engine.free()
    for (const connection of opened) await connection.dispose()
  }
}

/** The engine never closes its connections: keep them in hand. */
function remembering(
  factory: SqlMigrationAwareDriverAdapterFactory,
  opened: SqlDriverAdapter[],
): SqlMigrationAwareDriverAdapterFactory {
  const keep = async (connection: Promise<SqlDriverAdapter>) => {
    opened.push(await connection)
    return connection
  }
  return {
    provider: factory.provider,
    adapterName: factory.adapterName,
    connect: () => keep(factory.connect()),
    connectToShadowDb: () => keep(factory.connectToShadowDb()),
  }
}

function target(schema: string): DiffTarget {
  return { tag: 'schemaDatamodel', files: [{ path: SCHEMA, content: schema }] }
}

function migrationList(migrations: readonly Migration[]) {
  return {
    baseDir: MIGRATIONS,
    lockfile: { path: LOCK_FILE, content: readFileSync(join(MIGRATIONS, LOCK_FILE), 'utf8') },
    migrationDirectories: migrations.map(({ name, sql }) => ({
      path: name,
      migrationFile: { path: 'migration.sql', content: { tag: 'ok' as const, value: sql } },
    })),
    shadowDbInitScript: '',
  }
}

type Bindings = { SchemaEngine: typeof SchemaEngine; __wbg_set_wasm(exports: WebAssembly.Exports): void }
let bindings: Promise<Bindings> | null = null

function loadEngine(): Promise<Bindings> {
  bindings ??= (async () => {
    const glue: Bindings & WebAssembly.ModuleImports = await import('@prisma/schema-engine-wasm/schema_engine_bg')
    const require = createRequire(import.meta.url)
    const entry = require.resolve('@prisma/schema-engine-wasm/schema_engine_bg')
    const bytes = readFileSync(entry.replace(/\.js$/, '.wasm'))
    const { instance } = await WebAssembly.instantiate(bytes, { './schema_engine_bg.js': glue })
    glue.__wbg_set_wasm(instance.exports)
    const start = instance.exports['__wbindgen_start']
    if (typeof start === 'function') start()
    return glue
  })()
  return bindings
}
