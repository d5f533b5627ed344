import 'server-only'

/** SQLite takes some 998 values in one list; a question about more is asked in several. */
const most = 500

export async function inSlices<Row>(
  ids: Iterable<string>,
  find: (ids: string[]) => Promise<readonly Row[]>,
): Promise<Row[]> {
  const all = [...new Set(ids)]
  const rows: Row[] = []
  for (let at = 0; at < all.length; at += most) rows.push(...(await find(all.slice(at, at + most))))
  return rows
}
