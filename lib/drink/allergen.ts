/** The allergen lists known here. */
export type AllergenListId = 'eu' | 'us' | 'philippines' | 'codex'

/** What a label says of one allergen. `not-named` is only true of a label that was read. */
export type AllergenMark = 'contains' | 'may-contain' | 'not-stated' | 'not-named'

/** One allergen of a list: the id kept, the words shown, the foods that carry it. */
export type Allergen = { readonly id: string; readonly name: string; readonly covers: string }

/** A published list of allergens that must be declared, with its source and how sure we are of its text. */
export type AllergenList = {
  readonly id: AllergenListId
  readonly name: string
  readonly source: string
  readonly allergens: readonly Allergen[]
}

/** One allergen over a whole drink: the gravest mark, which parts carry it, and whether "free from" may be said. */
export type AllergenRow = {
  readonly id: string
  readonly name: string
  readonly state: AllergenMark
  readonly from: readonly string[]
  readonly freeFromAllowed: boolean
}

/** All allergens of the drink, and the parts whose labels nobody has read. */
export type AllergenUnion = {
  readonly list: string
  readonly source: string
  readonly rows: readonly AllergenRow[]
  readonly unread: readonly string[]
}

const GRAVITY: Readonly<Record<AllergenMark, number>> = {
  contains: 3,
  'may-contain': 2,
  'not-stated': 1,
  'not-named': 0,
}

const GLUTEN: Allergen = {
  id: 'gluten-cereals',
  name: 'Cereals with gluten',
  covers: 'wheat (with spelt and khorasan), rye, barley, oats, and what is made of them',
}
const CRUSTACEANS: Allergen = { id: 'crustaceans', name: 'Crustaceans', covers: 'shrimp, crab, lobster' }
const EGGS: Allergen = { id: 'eggs', name: 'Eggs', covers: 'eggs of any bird' }
const FISH: Allergen = { id: 'fish', name: 'Fish', covers: 'fish, and gelatine or isinglass made from it' }
const PEANUTS: Allergen = { id: 'peanuts', name: 'Peanuts', covers: 'peanuts (groundnuts)' }
const SOYBEANS: Allergen = { id: 'soybeans', name: 'Soybeans', covers: 'soy drink, soy lecithin' }
const MILK: Allergen = {
  id: 'milk',
  name: 'Milk',
  covers: 'milk of animals, cream, condensed milk, caseinate, lactose',
}
const NUTS: Allergen = {
  id: 'tree-nuts',
  name: 'Tree nuts',
  covers: 'almond, hazelnut, walnut, cashew, pecan, Brazil nut, pistachio, macadamia',
}
const SESAME: Allergen = { id: 'sesame', name: 'Sesame', covers: 'sesame seed, paste and oil' }
const SULPHITES: Allergen = {
  id: 'sulphites',
  name: 'Sulphites',
  covers: 'sulphur dioxide and sulphites at 10 mg/kg or more',
}
const WHEAT: Allergen = { id: 'wheat', name: 'Wheat', covers: 'wheat, spelt, khorasan' }

/**
 * Which allergens must be declared where?
 *
 * Source   EU Regulation 1169/2011, Annex II; Philippines FDA AO 2014-0030; US (FALCPA, FASTER Act) and the Codex list as
 *          revised in 2024 from memory, marked in `source`: read the law of the place before relying on them
 * Checked  test/unit/drink/allergen.test.ts
 * Limits   Exemptions (such as glucose syrup from wheat in the EU) are not applied: the label in the hand decides.
 */
export const ALLERGEN_LISTS: Readonly<Record<AllergenListId, AllergenList>> = {
  eu: {
    id: 'eu',
    name: 'European Union, 14 allergens',
    source: 'EU Regulation 1169/2011, Annex II',
    allergens: [
      GLUTEN,
      CRUSTACEANS,
      EGGS,
      FISH,
      PEANUTS,
      SOYBEANS,
      MILK,
      NUTS,
      { id: 'celery', name: 'Celery', covers: 'celery stalk, root, seed, salt' },
      { id: 'mustard', name: 'Mustard', covers: 'mustard seed, powder, leaf' },
      SESAME,
      SULPHITES,
      { id: 'lupin', name: 'Lupin', covers: 'lupin seed and flour' },
      { id: 'molluscs', name: 'Molluscs', covers: 'mussels, oysters, squid, snails' },
    ],
  },
  us: {
    id: 'us',
    name: 'United States, 9 major allergens',
    source: 'US FALCPA and FASTER Act (list from memory)',
    allergens: [MILK, EGGS, FISH, CRUSTACEANS, NUTS, PEANUTS, WHEAT, SOYBEANS, SESAME],
  },
  philippines: {
    id: 'philippines',
    name: 'Philippines, 8 groups',
    source: 'Philippines FDA Administrative Order 2014-0030',
    allergens: [GLUTEN, CRUSTACEANS, EGGS, FISH, PEANUTS, SOYBEANS, MILK, NUTS, SULPHITES],
  },
  codex: {
    id: 'codex',
    name: 'Codex, labelling of prepackaged foods',
    source:
      'Codex CXS 1, 2024 revision with sesame (final text from memory; soybeans and oats moved to a regional list)',
    allergens: [GLUTEN, CRUSTACEANS, EGGS, FISH, PEANUTS, SOYBEANS, MILK, NUTS, SESAME, SULPHITES],
  },
}

/** One part of a drink: its name, what its label says, and whether anyone read it. */
export type AllergenPart = {
  readonly name: string
  readonly marks: Readonly<Record<string, AllergenMark>>
  readonly labelRead: boolean
}

/**
 * What does one part say of one allergen?
 *
 *     the mark it carries; silence is "not-named" if the label was read, else "not-stated"
 *
 * Wheat is a cereal with gluten: a mark on either side speaks for the other where it is the graver one.
 *
 * Source   our own rule: absence is never inferred from an unread label
 * Checked  test/unit/drink/allergen.test.ts
 */
export function markOf(part: AllergenPart, allergen: string): AllergenMark {
  const silent: AllergenMark = part.labelRead ? 'not-named' : 'not-stated'
  const own = part.marks[allergen]
  const stated = own === 'not-named' && !part.labelRead ? 'not-stated' : (own ?? silent)
  // Every wheat carries gluten; a gluten cereal may be wheat, so where only that is known it may contain it.
  if (allergen === 'gluten-cereals') return graver(stated, part.marks.wheat ?? 'not-named')
  const gluten = part.marks['gluten-cereals'] ?? 'not-named'
  if (allergen === 'wheat' && own === undefined) return graver(stated, gluten === 'contains' ? 'may-contain' : gluten)
  return stated
}

function graver(a: AllergenMark, b: AllergenMark): AllergenMark {
  return GRAVITY[a] >= GRAVITY[b] ? a : b
}

/**
 * What does the whole drink say?
 *
 *     state = the gravest mark of any part;  "free from" only if every part is "not-named", each label read
 *
 * @param parts  every ingredient down the tree of preparations; none means nothing is known
 * @param list   the list of the place where it is sold
 *
 * Source   our own rule, stricter than any list: not stated blocks "free from"
 * Checked  test/unit/drink/allergen.test.ts
 * Limits   Cross-contact in the café itself is for the café to judge. Allergens not on the list are not looked at.
 */
export function allergensOf(parts: readonly AllergenPart[], list: AllergenListId): AllergenUnion {
  const { name, source, allergens } = ALLERGEN_LISTS[list]
  const rows = allergens.map((allergen): AllergenRow => {
    let state: AllergenMark = parts.length === 0 ? 'not-stated' : 'not-named'
    for (const part of parts) state = graver(state, markOf(part, allergen.id))
    const from = state === 'not-named' ? [] : parts.filter((part) => markOf(part, allergen.id) === state)
    return {
      id: allergen.id,
      name: allergen.name,
      state,
      from: [...new Set(from.map((part) => part.name))],
      freeFromAllowed: state === 'not-named',
    }
  })
  return { list: name, source, rows, unread: [...new Set(parts.filter((p) => !p.labelRead).map((p) => p.name))] }
}

/**
 * What do the labels say, in words?
 *
 * @returns  sentences, "contains" first; never that anything is free from anything
 *
 * Source   our own rule: what no label was read for is not stated, and said so
 * Checked  test/unit/drink/allergen.test.ts
 */
export function sayAllergens({ rows, unread }: AllergenUnion): readonly string[] {
  const named = (state: AllergenMark) => rows.filter((row) => row.state === state).map(({ name }) => name)
  const line = (words: string, names: readonly string[]) => (names.length > 0 ? [`${words}: ${names.join(', ')}.`] : [])
  const labels = unread.length > 0
  const said = [
    ...line('Contains', named('contains')),
    ...line('May contain', named('may-contain')),
    ...line('Not stated', labels ? ['all others of the list'] : named('not-stated')),
    ...(labels ? [`Labels not read: ${unread.join(', ')}. No allergen may be called absent until they are.`] : []),
  ]
  return said.length > 0 ? said : [NONE_NAMED]
}

const NONE_NAMED =
  'No allergen of the list is named on the labels, which have all been read. Traces from the house itself cannot be ruled out.'

/**
 * What does one thing bring that another did not?
 *
 * @param before  what is replaced
 * @param after   what stands in for it, by the same list
 * @returns       rows of `after` that are graver than they were; one that nobody stated is graver than one that is not named
 *
 * Source   our own rule
 * Checked  test/unit/drink/allergen.test.ts
 */
export function graverThan(before: AllergenUnion, after: AllergenUnion): readonly AllergenRow[] {
  const was = new Map(before.rows.map(({ id, state }) => [id, state]))
  return after.rows.filter(({ id, state }) => GRAVITY[state] > GRAVITY[was.get(id) ?? 'not-named'])
}
