import 'server-only'

/** Codes of each set of a seat. @param servings  in the order of tasting */
export function codesOfSets(
  servings: readonly { readonly code: string; readonly setId: string | null }[],
): readonly string[][] {
  const sets = new Map<string, string[]>()
  for (const { code, setId } of servings) if (setId !== null) sets.set(setId, [...(sets.get(setId) ?? []), code])
  return [...sets.values()]
}
