/** What a page is asked for behind the question mark, as the framework hands it over. */
export type Query = Promise<Readonly<Record<string, string | readonly string[] | undefined>>>

/** Every value of one name, in the order of the address. */
export async function every(query: Query, name: string): Promise<readonly string[]> {
  const given = (await query)[name] ?? []
  return typeof given === 'string' ? [given] : given
}

/** The same with each name once: one that is written twice says nothing. Never throws, whatever an address holds. */
export async function once(query: Query): Promise<Readonly<Record<string, string | undefined>>> {
  const given = Object.entries(await query).filter(([, value]) => typeof value === 'string')
  return Object.fromEntries(given) as Record<string, string>
}
