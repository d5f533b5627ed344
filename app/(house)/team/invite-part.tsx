import { AddressChoice } from '@/app/ui/address-choice'
import { chooseAddressAction } from '../panels/actions'
import { phoneAddress } from '../panels/phone-address'
import { InviteForm } from './invite-form'
import { OpenInvites, type Invite } from './team-list'

/** A link for somebody new, by an address that phones can reach, and the links that are open. */
export async function InvitePart({ invites }: { invites: readonly Invite[] }) {
  const found = await phoneAddress()
  return (
    <div className="grid gap-4">
      <InviteForm house={found.address} />
      <AddressChoice found={found} action={chooseAddressAction.bind(null, '/team')} />
      <OpenInvites invites={invites} />
    </div>
  )
}
