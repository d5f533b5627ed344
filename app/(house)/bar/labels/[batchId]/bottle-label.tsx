import type { Label } from '@/lib/tasks/bar/read-label'
import { sayMoment } from '@/app/ui/moment'

/** What is stuck on a bottle: black on white, to be cut out; "opened" is written by hand. */
export function BottleLabel({ label, zone }: { label: Label; zone: string }) {
  const { name, number, madeAt, discardAt, allergens } = label
  const named = (state: string) => allergens.rows.filter((row) => row.state === state).map((row) => row.name)
  const [contains, may] = [named('contains'), named('may-contain')]
  return (
    <li className="break-inside-avoid border border-dashed border-[#666] bg-[#fff] p-4 text-[11pt] text-[#000]">
      <p className="text-[15pt] leading-tight font-bold">{name}</p>
      <p className="font-bold">Batch {number}</p>
      <dl className="mt-1 grid grid-cols-[auto_1fr] gap-x-3">
        <dt>Made</dt>
        <dd>{madeAt ? sayMoment(madeAt, zone) : '__________'}</dd>
        <dt>Opened</dt>
        <dd>__________</dd>
        <dt className="font-bold">Discard</dt>
        <dd className="font-bold">{discardAt ? sayMoment(discardAt, zone) : '__________'}</dd>
      </dl>
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
    </li>
  )
}
