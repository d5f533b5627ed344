import Link from 'next/link'
import type { BatchMassForm } from '@/lib/forms/batch-mass-form'
import { AskedNumber } from '@/app/ui/asked-number'
import { Button } from '@/app/ui/button'

/** @param other  the preparation, where it can be made another way as well. How much: asked by address, so that the page can be kept and printed again. */
export function MassFields({ form, other }: { form: BatchMassForm; other: string | null }) {
  const { typed, problems, asLast } = form
  return (
    <>
      <form className="screen-only grid max-w-md gap-4">
        {asLast && <input type="hidden" name="from" value="last" />}
        <AskedNumber name="grams" label="Wanted" unit="g" typed={typed.grams} problem={problems.grams} />
        <AskedNumber name="pot" label="The empty pot weighs" unit="g" typed={typed.pot} problem={problems.pot} />
        <div>
          <Button type="submit">Work it out</Button>
        </div>
      </form>
      {other !== null && <OtherWay preparationId={other} form={form} />}
    </>
  )
}

/** By the formula, or as the last batch was made: the one that is not on the page. */
function OtherWay({ preparationId, form: { asLast } }: { preparationId: string; form: BatchMassForm }) {
  return (
    <p className="screen-only">
      <Link
        href={`/bar/batches/${preparationId}${asLast ? '' : '?from=last'}`}
        prefetch={false}
        className="inline-block py-1"
      >
        {asLast ? 'By the formula' : 'As the last batch was made'}
      </Link>
    </p>
  )
}
