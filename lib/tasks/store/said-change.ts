import 'server-only'
import type { UpstreamChangeRow } from '@/lib/db/upstream-changes'
import {
  alcoholStated,
  compositionChanges,
  labelThen,
  priceThen,
  supplierThen,
  type LabelThen,
  type PriceThen,
} from './upstream'

export interface ToldChange {
  readonly id: string
  readonly at: Date
  readonly by: string
  readonly said: SaidChange
}

/** What changed, as it was kept. */
export type SaidChange =
  | ({ readonly what: 'price' | 'pack' } & { readonly before: PriceThen | null; readonly after: PriceThen | null })
  | { readonly what: 'supplier'; readonly before: string | null; readonly after: string | null }
  | {
      readonly what: 'label'
      readonly composition: ReturnType<typeof compositionChanges>
      readonly allergens: readonly { readonly allergen: string; readonly was: string; readonly is: string }[]
      /** % by volume, stated for the first time; null where it is not that */
      readonly alcohol: number | null
      readonly read: { readonly was: boolean; readonly is: boolean }
    }

/** Another supplier, another composition, or something contained that a read label did not name: not the same thing. */
export function isAnotherThing(row: UpstreamChangeRow): boolean {
  const said = saidOf(row)
  if (said.what === 'supplier') return true
  if (said.what !== 'label') return false
  return (
    said.composition.length > 0 ||
    (said.read.was && said.allergens.some(({ was, is }) => (was === 'contains') !== (is === 'contains')))
  )
}

/** @param names  of who is named by id; who is not among them is somebody */
export function told(row: UpstreamChangeRow, names: ReadonlyMap<string, string>): ToldChange {
  return { id: row.id, at: row.at, by: nameOf(row.byId, names), said: saidOf(row) }
}

function saidOf({ what, before, after }: UpstreamChangeRow): SaidChange {
  if (what === 'supplier') return { what, before: supplierThen(before), after: supplierThen(after) }
  if (what !== 'label')
    return { what: what === 'pack' ? 'pack' : 'price', before: priceThen(before), after: priceThen(after) }
  const [was, is] = [labelThen(before), labelThen(after)]
  const marks = [...new Set([was, is].flatMap((label) => Object.keys(label?.allergens ?? {})))].toSorted()
  return {
    what,
    composition: was && is ? compositionChanges(was, is) : [],
    alcohol: was && is ? alcoholStated(was, is) : null,
    allergens: marks
      .map((allergen) => ({ allergen, was: stateIn(was, allergen), is: stateIn(is, allergen) }))
      .filter((mark) => mark.was !== mark.is),
    read: { was: was?.read ?? false, is: is?.read ?? false },
  }
}

const stateIn = (label: LabelThen | null, allergen: string) =>
  label?.allergens[allergen] ?? (label?.read ? 'not-named' : 'not-stated')

export const nameOf = (id: string | null, names: ReadonlyMap<string, string>) =>
  id === null ? 'the house' : (names.get(id) ?? 'somebody')
