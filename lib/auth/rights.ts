import 'server-only'

/** The one table of rights. A right not listed for a role is denied. The team page and DEVELOPERS.md show it to people. */
export const roles = ['owner', 'developer', 'pourer', 'bar', 'viewer'] as const
export type Role = (typeof roles)[number]

const everybody: readonly Role[] = roles
const readers: readonly Role[] = ['owner', 'developer', 'viewer']
const makers: readonly Role[] = ['owner', 'developer']

const table = {
  /** see the home page */
  home: everybody,
  /** read recipes, trials, ingredients, preparations, decisions */
  'recipe:read': readers,
  /** write them */
  'recipe:write': makers,
  /** read a panel's plan, and its result once closed */
  'panel:read': readers,
  /** plan, open, add seats, type in paper scores, close, copy */
  'panel:run': makers,
  /** make house recipes and their batches, record both and how they cool, print labels, open packs, throw away what is past its date */
  'bar:make': ['owner', 'developer', 'pourer', 'bar'],
  /** open the filling list or the serving list of an open panel, tick off servings */
  'panel:pour': ['owner', 'developer', 'pourer'],
  /** see how many cups each seat has scored */
  'panel:progress': ['owner', 'developer', 'pourer'],
  /** adopt, keep, test again */
  decide: makers,
  /** scores and panels as files, after closing */
  export: readers,
  /** invite, change roles, remove */
  team: ['owner'],
  /** the café's name, money, law's list of allergens */
  cafe: ['owner'],
  /** the diary of who did what */
  diary: makers,
} as const satisfies Record<string, readonly Role[]>

export type Right = keyof typeof table

export const rights = Object.keys(table) as readonly Right[]

export function may(role: Role, right: Right): boolean {
  return (table[right] as readonly Role[]).includes(role)
}

export function isRole(word: string): word is Role {
  return (roles as readonly string[]).includes(word)
}
