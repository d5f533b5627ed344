import { AddressChoice } from '@/app/ui/address-choice'
import { ButtonLink } from '@/app/ui/button'
import { chooseAddressAction } from '../../actions'
import type { phoneAddress } from '../../phone-address'

interface Props {
  readonly panelId: string
  /** free seats are shown as well */
  readonly free: boolean
  readonly found: Awaited<ReturnType<typeof phoneAddress>>
}

/** On the screen alone: which seats have a ballot, and where their codes lead. */
export function BallotWays({ panelId, free, found }: Props) {
  return (
    <div className="screen-only grid max-w-prose gap-3">
      <p>
        A seat that is put on paper is given to no phone. Give each ballot with the tray of its seat, and take it back
        before anybody says which cup is which.
      </p>
      <div className="flex flex-wrap gap-3">
        <ButtonLink look="plain" href={`/panels/${panelId}/paper`}>
          Put a seat on paper
        </ButtonLink>
        <ButtonLink look="plain" href={`/panels/${panelId}/ballots${free ? '' : '?free=yes'}`}>
          {free ? 'Only seats on paper' : 'Free seats as well'}
        </ButtonLink>
      </div>
      <AddressChoice found={found} action={chooseAddressAction.bind(null, `/panels/${panelId}/ballots`)} />
    </div>
  )
}
