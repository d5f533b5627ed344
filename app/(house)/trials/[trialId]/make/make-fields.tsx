import { MAKE_COUNTS, type MakeForm } from '@/lib/forms/make-form'
import type { OnShelf } from '@/lib/tasks/bar/on-shelf'
import { AskedNumber } from '@/app/ui/asked-number'
import { Button } from '@/app/ui/button'
import { countWords } from './say-make'
import { ShelfFields } from './shelf-fields'

/** How much: asked by address, so that a list can be kept, sent and printed again. */
export function MakeFields({
  form: { typed, problems },
  onShelf,
  keep,
}: {
  form: MakeForm
  onShelf: readonly OnShelf[]
  /** keeps the counts; null for who may not */
  keep: ((form: FormData) => Promise<void>) | null
}) {
  return (
    <form className="screen-only grid max-w-md gap-4">
      <fieldset className="grid gap-1">
        <legend className="font-semibold">Count in</legend>
        {MAKE_COUNTS.map((count) => (
          <label key={count} className="flex min-h-11 items-center gap-3">
            <input
              type="radio"
              name="count"
              value={count}
              defaultChecked={typed.count === count}
              className="size-5 accent-[var(--accent)]"
            />
            {countWords[count]}
          </label>
        ))}
      </fieldset>
      <AskedNumber name="amount" label="How many" typed={typed.amount} problem={problems.amount} />
      <AskedNumber name="spare" label="To spare" unit="%" typed={typed.spare} problem={problems.spare} />
      <ShelfFields onShelf={onShelf} />
      <div className="flex flex-wrap gap-3">
        <Button type="submit">Work it out</Button>
        {keep && onShelf.length > 0 && (
          <Button type="submit" look="plain" formAction={keep}>
            Keep these counts
          </Button>
        )}
      </div>
    </form>
  )
}
