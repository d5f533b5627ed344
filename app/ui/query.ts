/** What a page is asked for behind the question mark, as the framework hands it over. */
export type Query = Promise<Readonly<Record<string, string | readonly string[] | undefined>>>

/** The same with each name once: one that is written twice says nothing. Never throws, whatever an address holds. */
export async function once(query: Query): Promise<Readonly<Record<string, string | undefined>>> {
  const given = Object.entries(await query).filter(([, value]) => typeof value === 'string')
  return Object.fromEntries(given) as Record<string, string>
}
