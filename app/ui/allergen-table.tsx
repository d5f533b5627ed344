import type { AllergenUnion } from '@/lib/drink/allergen'

const words = {
  contains: 'contains',
  'may-contain': 'may contain',
  'not-stated': 'not stated',
  'not-named': 'not named on any label',
} as const

/** Contains, may contain, not stated: in that order. What no label was read for never turns into "free from". */
export function AllergenTable({ allergens }: { allergens: AllergenUnion }) {
  const shown = (['contains', 'may-contain', 'not-stated', 'not-named'] as const).flatMap((state) => {
    const rows = allergens.rows.filter((row) => row.state === state)
    return rows.length > 0 ? [{ state, rows }] : []
  })
  return (
    <div className="grid gap-3">
      <dl className="grid gap-2">
        {shown.map(({ state, rows }) => (
          <div key={state} className="sm:grid sm:grid-cols-[12rem_1fr] sm:gap-x-3">
            <dt className="font-semibold first-letter:uppercase">{words[state]}</dt>
            <dd>
              {rows
                .map((row) =>
                  state === 'contains' || state === 'may-contain' ? `${row.name} (${row.from.join(', ')})` : row.name,
                )
                .join('; ')}
            </dd>
          </div>
        ))}
      </dl>
      {allergens.unread.length > 0 && (
        <p className="font-semibold text-caution">
          Nobody has read the label of {allergens.unread.join(', ')}: nothing may be called free from anything.
        </p>
      )}
      <p className="text-s text-soft">
        {allergens.source}. The label in the hand decides. Kitchens share spoons and jugs: never promise “free from”
        because a label does not name it.
      </p>
    </div>
  )
}
