/** Which law's list of allergens a café shows; the words of lib/drink/allergen decide what stands in each. */
export const allergenLists = [
  { value: 'eu', words: 'European Union: Regulation 1169/2011, 14 groups' },
  { value: 'us', words: 'United States: the 9 major allergens' },
  { value: 'philippines', words: 'Philippines: AO 2014-0030' },
  { value: 'codex', words: 'Codex Alimentarius: CXS 1' },
] as const
