import 'server-only'
/** Something that must hold in every house and that no column, key or relation can state. */
export interface Rule {
  readonly code: string
  /** SQL that finds each place where it does not hold; the columns it names are the values of the complaint. It reads and no more. */
  readonly find: string
}

/** Numbers of the rows of one parent are `first`, `first` + 1, … without gap: each parent where they are not. */
export function unbroken<Code extends string>(of: {
  readonly code: Code
  readonly table: string
  readonly parent: string
  readonly number: string
  readonly first?: 0 | 1
  readonly where?: string
}): Rule & { readonly code: Code } {
  const { code, table, parent, number, first = 1, where = 'true' } = of
  return {
    code,
    find: `SELECT "${parent}" AS id, count(*) AS rows, min("${number}") AS lowest, max("${number}") AS highest
           FROM "${table}" WHERE ${where} GROUP BY "${parent}"
           HAVING min("${number}") <> ${first} OR max("${number}") <> count(*) - ${1 - first}
             OR count(DISTINCT "${number}") <> count(*)`,
  }
}
