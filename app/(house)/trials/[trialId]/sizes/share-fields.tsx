import type { SizesForm } from '@/lib/forms/sizes-form'
import { AskedNumber } from '@/app/ui/asked-number'
import { Button } from '@/app/ui/button'

/** What each glass is to hold of ice and of coffee: asked by address, so that the page can be kept and printed again. */
export function ShareFields({ form: { typed, problems } }: { form: SizesForm }) {
  return (
    <form className="screen-only grid max-w-md gap-4">
      <p className="text-s text-soft">
        By volume, of the glass as it is built. Left empty, a share stays as on the sheet; the rest keeps its own
        proportions.
      </p>
      <AskedNumber name="ice" label="Ice" unit="%" typed={typed.ice} problem={problems.ice} />
      <AskedNumber name="coffee" label="Coffee" unit="%" typed={typed.coffee} problem={problems.coffee} />
      <div>
        <Button type="submit">Hold these shares</Button>
      </div>
    </form>
  )
}
