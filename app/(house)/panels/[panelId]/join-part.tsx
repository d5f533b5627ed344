import { readSeatCards } from '@/lib/tasks/pour/read-seat-cards'
import { theWorld } from '@/lib/tasks/world'
import { requireMember } from '@/lib/auth/guard'
import { ButtonLink } from '@/app/ui/button'
import { Section } from '@/app/ui/page-frame'
import { AddressChoice } from '@/app/ui/address-choice'
import { ScanCode } from '@/app/ui/scan-code'
import { chooseAddressAction } from '../actions'
import { phoneAddress } from '../phone-address'

/** The code that gives the next free seat, and the way to the printed cards. */
export async function JoinPart({ panelId }: { panelId: string }) {
  const member = await requireMember('panel:run')
  const cards = await readSeatCards(theWorld(), member, panelId)
  const found = await phoneAddress()
  if (!cards) return null
  return (
    <Section title="Let tasters in">
      <div className="flex flex-wrap items-start gap-6">
        {found.address && (
          <ScanCode address={`${found.address}/join/${cards.joinToken}`} words="Gives the next free seat" />
        )}
        <div className="grid max-w-prose grow basis-64 gap-3">
          <p>
            Phones scan this code on the café’s own network, and each gets the next free seat. Or print the seat cards:
            each carries its own seat.
          </p>
          <AddressChoice found={found} action={chooseAddressAction.bind(null, `/panels/${panelId}`)} />
          <div className="flex flex-wrap gap-3">
            <ButtonLink look="plain" href={`/panels/${panelId}/cards`}>
              Seat cards
            </ButtonLink>
            <ButtonLink look="plain" href={`/panels/${panelId}/mats`}>
              Tray mats
            </ButtonLink>
            <ButtonLink look="plain" href={`/panels/${panelId}/labels`}>
              Cup labels
            </ButtonLink>
            <ButtonLink look="plain" href={`/panels/${panelId}/sign`}>
              Sign
            </ButtonLink>
            <ButtonLink look="plain" href={`/panels/${panelId}/ballots`}>
              Ballots on paper
            </ButtonLink>
            <ButtonLink look="plain" href={`/panels/${panelId}/phones`}>
              Try it with a phone
            </ButtonLink>
          </div>
        </div>
      </div>
    </Section>
  )
}
