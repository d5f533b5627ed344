import { MAKE_COUNTS, type MakeForm } from '@/lib/forms/make-form'
import type { OnShelf } from '@/lib/tasks/bar/on-shelf'
import { AskedNumber } from '@/app/ui/asked-number'
import { Button } from '@/app/ui/button'
import { countWords, sayBatches } from './say-make'

/** How much: asked by address, so that a list can be kept, sent and printed again. */
export function MakeFields({ form: { typed, problems }, onShelf }: { form: MakeForm; onShelf: readonly OnShelf[] }) {
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
      {onShelf.map(({ name, numbers, field, typed: left, problem }) => (
        <AskedNumber
          key={field}
          name={field}
          label={`${name} on the shelf, ${sayBatches(numbers)}`}
          unit="g"
          typed={left}
          problem={problem}
        />
      ))}
      <div>
        <Button type="submit">Work it out</Button>
      </div>
    </form>
  )
}
