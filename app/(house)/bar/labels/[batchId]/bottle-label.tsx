import type { Label } from '@/lib/tasks/bar/read-label'
import { sayMoment } from '@/app/ui/moment'
import { LabelAllergens } from '../../label-allergens'

/** What is stuck on a bottle: black on white, to be cut out; "opened" is written by hand. */
export function BottleLabel({ label, zone }: { label: Label; zone: string }) {
  const { name, number, madeAt, discardAt, allergens } = label
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
      <LabelAllergens allergens={allergens} />
    </li>
  )
}
