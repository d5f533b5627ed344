import type { AllergenUnion } from '@/lib/drink/allergen'

/** What a label says of allergens: what nobody has read is "not stated", and nothing is "free from". */
export function LabelAllergens({ allergens }: { allergens: AllergenUnion }) {
  const named = (state: string) => allergens.rows.filter((row) => row.state === state).map((row) => row.name)
  const [contains, may] = [named('contains'), named('may-contain')]
  return (
    <>
      <p className="mt-1">
        <strong>Contains:</strong> {contains.join(', ') || 'none named on the labels read'}
      </p>
      {may.length > 0 && (
        <p>
          <strong>May contain:</strong> {may.join(', ')}
        </p>
      )}
      {allergens.unread.length > 0 && (
        <p>
          <strong>Not stated:</strong> the label of {allergens.unread.join(', ')} was not read.
        </p>
      )}
    </>
  )
}
