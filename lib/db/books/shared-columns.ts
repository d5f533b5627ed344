import 'server-only'
import type { Db, Tx } from '../engine/client'

/** What a row and the row it points at are both part of: one café, one panel, one recipe. */
const SHARED = { cafeId: 'other-cafe', panelId: 'other-panel', recipeId: 'other-recipe' } as const

export interface SharedRule {
  readonly code: (typeof SHARED)[keyof typeof SHARED] | 'act-of-nobody'
  readonly find: string
}

interface Link {
  readonly child: string
  readonly column: string
  readonly parent: string
  readonly key: string
}

interface Column {
  readonly owner: string
  readonly column: string
}

/**
 * Read off the database's own tables, so that a relation of tomorrow is looked at too: a row is of the same café, panel and recipe
 * as each row that it points at, and who is named as having done something ("…ById") has an account.
 */
export async function sharedRules(db: Db | Tx): Promise<readonly SharedRule[]> {
  const links = await db.$queryRawUnsafe<Link[]>(
    `SELECT m.name AS child, f."from" AS "column", f."table" AS parent, f."to" AS key
     FROM sqlite_master m, pragma_foreign_key_list(m.name) f WHERE m.type = 'table' ORDER BY 1, 2`,
  )
  const columns = await db.$queryRawUnsafe<Column[]>(
    `SELECT m.name AS owner, i.name AS "column" FROM sqlite_master m, pragma_table_info(m.name) i
     WHERE m.type = 'table' ORDER BY 1, 2`,
  )
  const has = (table: string, column: string) => columns.some((one) => one.owner === table && one.column === column)
  const shared = links.flatMap((link) =>
    Object.entries(SHARED)
      .filter(([column]) => has(link.child, column) && has(link.parent, column) && link.column !== column)
      .map(([column, code]) => ({ code, find: differing(link, column) })),
  )
  return [...shared, ...columns.filter(({ column }) => column.endsWith('ById')).map(ofNobody)]
}

function differing({ child, column, parent, key }: Link, shared: string): string {
  return `SELECT '${child}' AS kind, c.id, '${column}' AS "column" FROM "${child}" c
          JOIN "${parent}" p ON p."${key}" = c."${column}" WHERE c."${shared}" <> p."${shared}"`
}

function ofNobody({ owner, column }: Column): SharedRule {
  return {
    code: 'act-of-nobody',
    find: `SELECT '${owner}' AS kind, id, '${column}' AS "column" FROM "${owner}"
           WHERE "${column}" IS NOT NULL AND "${column}" NOT IN (SELECT id FROM User)`,
  }
}
