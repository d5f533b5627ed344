import { Fold } from '@/app/ui/page-frame'

/** What to mend when the phone's page does not come, the likeliest first. */
export function Mends({ address }: { address: string }) {
  const { port, protocol } = new URL(address)
  const gate = port || (protocol === 'https:' ? '443' : '80')
  return (
    <Fold words="Nothing happens within ten seconds? Three things to mend">
      <ol className="grid list-decimal gap-3 ps-5">
        <li>
          <strong className="font-semibold">Same network?</strong> The phone must be on the same network as this
          computer, not on mobile data. Switch mobile data off for the try.
        </li>
        <li>
          <strong className="font-semibold">Firewall?</strong> This computer must let port {gate} in from its own
          network. Allow it for private networks in the system’s firewall settings.
        </li>
        <li>
          <strong className="font-semibold">Guest isolation?</strong> Many guest networks keep devices apart. Put the
          computer and the phones on the network that does not, or switch the isolation off.
        </li>
      </ol>
    </Fold>
  )
}
