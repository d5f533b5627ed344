import { plain } from '@/lib/base/number-format'
import type { MadeFirst as First } from '@/lib/tasks/trial/from-formula'
import { Notice } from './notice'

/** By what a preparation is made, below its amount on the list. */
export function sayNoneInDate(first: First | undefined): string {
  if (first?.by !== 'formula') return 'No batch of it is in date.'
  return `No batch of it is in date: by formula version ${first.version ?? 1}.`
}

/** Why it comes first, and what must be known of it before it is poured. */
function sayFirst({ name, by, version, brix, isBrewed }: First): string {
  if (by === 'no formula')
    return `There is neither a batch of ${name} in date nor a formula: nobody can say what goes into it. Write its formula, or record a batch.`
  if (by === 'no yield')
    return `No batch of ${name} is in date, and nobody knows what its formula gives: set its target mass, or weigh what comes out once.`
  const cooked = brix === null ? '' : `, to ${plain(brix, 1)} °Bx`
  const how = by === 'formula' ? `by formula version ${version ?? 1}${cooked}` : 'as the batch of this sheet was made'
  const first = `No batch of ${name} is in date: make it first, ${how}, and weigh what comes out`
  return isBrewed
    ? `${first}. What is known of it here is worked out, not measured.`
    : `${first}. Measure its °Bx before it is poured: the dose here is the sheet’s, it changes where the new batch reads otherwise, and what is known of it is worked out, not measured.`
}

/** What must be made before anything is poured, since none of it is in date. */
export function MadeFirst({ first }: { first: readonly First[] }) {
  if (first.length === 0) return null
  return (
    <Notice look="caution" word="Make first">
      <ul className="grid gap-1">
        {first.map((one) => (
          <li key={`${one.name} ${one.by}`}>{sayFirst(one)}</li>
        ))}
      </ul>
    </Notice>
  )
}
