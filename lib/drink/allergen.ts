import type { AllergenListId } from './build'

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
