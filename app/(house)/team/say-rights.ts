import type { Right } from '@/lib/auth/rights'

/** What each right lets one do. */
export const sayRight: Record<Right, string> = {
  home: 'See the first page and which panels are open, change one’s own password',
  'recipe:read': 'Read recipes, trials, ingredients, preparations and decisions',
  'recipe:write': 'Write recipes, trials, ingredients and preparations, give out sheets for home',
  'bar:make':
    'Make house recipes and batches for them, record both and how they cool, print labels, open packs, throw away what is past its date',
  'panel:read': 'Read a panel’s plan, and its result once it is closed',
  'panel:run': 'Plan, open and close panels, add seats, type in paper sheets',
  'panel:pour': 'Open the filling list and the serving list, tick off servings',
  'panel:progress': 'Watch how many cups each seat has scored',
  decide: 'Decide on a house recipe, and share a result by a link without names',
  export: 'Take scores and panels away as files, after closing',
  team: 'Invite people, change roles, remove people',
  cafe: 'Change the café’s name, money and list of allergens, hear back from home or not',
  diary: 'Read the diary of who did what',
}
