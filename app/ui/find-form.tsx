import { Button } from './button'

/** One field to look for something by its words. */
export function FindForm({
  action,
  name,
  label,
  typed,
}: {
  action?: string
  name: string
  label: string
  typed: string
}) {
  return (
    <form role="search" action={action} className="flex max-w-md items-end gap-3">
      <label className="grid grow gap-1 font-semibold">
        {label}
        <input
          type="search"
          name={name}
          defaultValue={typed}
          className="min-h-11 w-full rounded border border-edge bg-raised px-3 font-normal"
        />
      </label>
      <Button type="submit" look="plain">
        Find
      </Button>
    </form>
  )
}
