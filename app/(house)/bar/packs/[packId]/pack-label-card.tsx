import type { PackLabel } from '@/lib/tasks/bar/read-packs'
import { sayMoment } from '@/app/ui/moment'
import { LabelAllergens } from '../../label-allergens'

/** What is stuck on an opened pack: black on white, to be cut out. */
export function PackLabelCard({ label, zone }: { label: PackLabel; zone: string }) {
  const { name, mark, openedAt, discardAt, allergens } = label
  return (
    <div className="break-inside-avoid border border-dashed border-[#666] bg-[#fff] p-4 text-[11pt] text-[#000]">
      <p className="text-[15pt] leading-tight font-bold">{name}</p>
      {mark !== null && <p className="font-bold">{mark}</p>}
      <dl className="mt-1 grid grid-cols-[auto_1fr] gap-x-3">
        <dt>Opened</dt>
        <dd>{sayMoment(openedAt, zone)}</dd>
        <dt className="font-bold">Discard</dt>
        <dd className="font-bold">{discardAt ? sayMoment(discardAt, zone) : '__________'}</dd>
      </dl>
      <LabelAllergens allergens={allergens} />
    </div>
  )
}
