import type { SizesForm } from '@/lib/forms/sizes-form'
import { AskedNumber } from '@/app/ui/asked-number'
import { Button } from '@/app/ui/button'

/** What each glass is to hold of ice and of coffee: asked by address, so that the page can be kept and printed again. */
export function ShareFields({
  form: { typed, problems },
  keep,
  kept,
}: {
  readonly form: SizesForm
  /** keeps what is typed for every size of the recipe; null for who may not */
  readonly keep: ((form: FormData) => Promise<void>) | null
  /** what the recipe keeps */
  readonly kept: SizesForm['typed']
}) {
  const keeps = [kept.ice && `${kept.ice} % ice`, kept.coffee && `${kept.coffee} % coffee`].filter(Boolean).join(', ')
  return (
    <form className="screen-only grid max-w-md gap-4">
      <p className="text-s text-soft">
        By volume, of the glass as it is built. Left empty, a share stays as on the sheet; the rest keeps its own
        proportions.
      </p>
      <AskedNumber name="ice" label="Ice" unit="%" typed={typed.ice} problem={problems.ice} />
      <AskedNumber name="coffee" label="Coffee" unit="%" typed={typed.coffee} problem={problems.coffee} />
      <div className="flex flex-wrap gap-3">
        <Button type="submit">Hold these shares</Button>
        {keep && (
          <Button type="submit" look="plain" formAction={keep}>
            Keep them for this recipe
          </Button>
        )}
      </div>
      {keeps && <p className="text-s text-soft">The recipe keeps {keeps} for every size.</p>}
    </form>
  )
}
