/** What the database would do for the statements of an act: read from Prisma's own log, explained by SQLite. */
import Database from 'better-sqlite3'
import { SharedFileFactory } from '@/lib/db/engine/connection'
import { PrismaClient } from '@/lib/db/generated/client'
import { worldOf, type World } from '@/lib/tasks/world'

export interface Explained {
  readonly sql: string
  /** SQLite's steps, each table by its name and not by the statement's short one */
  readonly steps: readonly string[]
}

export interface Listening {
  readonly world: World
  /** every statement that the act sent, explained */
  explain(act: () => Promise<unknown>): Promise<readonly Explained[]>
  /** how many statements the act sent */
  count(act: () => Promise<unknown>): Promise<number>
  close(): Promise<void>
}

export function listenTo(file: string): Listening {
  const db = new PrismaClient({
    adapter: new SharedFileFactory(file),
    log: [{ emit: 'event', level: 'query' }],
    errorFormat: 'minimal',
  })
  const sent: string[] = []
  db.$on('query', ({ query }) => sent.push(query))
  return {
    world: worldOf(db),
    async explain(act) {
      sent.length = 0
      await act()
      const plain = new Database(file, { readonly: true })
      try {
        return [...new Set(sent)]
          .filter((sql) => /^(SELECT|UPDATE|DELETE)/i.test(sql))
          .map((sql) => explain(plain, sql))
      } finally {
        plain.close()
      }
    },
    async count(act) {
      sent.length = 0
      await act()
      return sent.length
    },
    close: () => db.$disconnect(),
  }
}

function explain(plain: Database.Database, sql: string): Explained {
  const statement = plain.prepare<unknown[], { readonly detail: string }>(`EXPLAIN QUERY PLAN ${sql}`)
  const values = Array.from({ length: sql.split('?').length - 1 }, () => 'x')
  // SQLite names a table as the statement does: by its short name, or with the name of the database before it.
  const tables = new Map(
    [...sql.matchAll(/`main`\.`(\w+)` AS `(\w+)`/g)].map(([, table = '', short = '']) => [short, table]),
  )
  const steps = statement
    .all(...values)
    .map(({ detail }) =>
      detail.replace(
        /^(SCAN|SEARCH) (?:main\.)?(\S+)/,
        (_, how: string, name: string) => `${how} ${tables.get(name) ?? name}`,
      ),
    )
  return { sql, steps }
}
