import { Button } from './button'
import { Notice } from './notice'

interface Found {
  readonly address: string | null
  readonly choices: readonly string[]
}

/** Which of this computer's addresses goes into the codes. Nothing to choose is nothing shown. */
export function AddressChoice({ found, action }: { found: Found; action: (form: FormData) => Promise<void> }) {
  if (found.address === null) {
    return (
      <Notice look="stop" word="No network">
        This computer has no network address that phones could reach. Connect it to the café’s network, or set
        PUBLIC_URL, and load this page again.
      </Notice>
    )
  }
  if (found.choices.length === 0) return null
  return (
    <form action={action} className="grid gap-2">
      <p className="text-s text-soft">
        You came by an address that only works on this computer. The code carries its network address instead
        {found.choices.length > 1 ? '; choose the one of the network the phones are on:' : '.'}
      </p>
      {found.choices.length > 1 && (
        <div className="flex flex-wrap items-end gap-2">
          <label className="grid gap-1 text-s">
            Address for phones
            <select
              name="address"
              defaultValue={found.address}
              className="min-h-11 rounded border border-edge bg-raised px-3 py-2 text-m"
            >
              {found.choices.map((choice) => (
                <option key={choice}>{choice}</option>
              ))}
            </select>
          </label>
          <Button type="submit" look="plain">
            Use it
          </Button>
        </div>
      )}
    </form>
  )
}
