import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readSeatCards } from '@/lib/tasks/pour/read-seat-cards'
import { theWorld } from '@/lib/tasks/world'
import { AddressChoice } from '@/app/ui/address-choice'
import { sayMoment } from '@/app/ui/moment'
import { Page } from '@/app/ui/page-frame'
import { PrintButton } from '@/app/ui/print-button'
import { PrintSheet } from '@/app/ui/print-sheet'
import { SeatCard } from '@/app/ui/seat-card'
import { chooseAddressAction } from '../../actions'
import { counted, panelTrail } from '../../panel-words'
import { phoneAddress } from '../../phone-address'

export const metadata: Metadata = { title: 'Seat cards' }

export default async function SeatCardsPage({ params }: { params: Promise<{ panelId: string }> }) {
  const member = await requireMember('panel:run')
  const { panelId } = await params
  const cards = await readSeatCards(theWorld(), member, panelId)
  if (!cards) notFound()
  const found = await phoneAddress()
  const printed = sayMoment(new Date(), member.cafe.timeZone)
  return (
    <Page
      trail={panelTrail({ id: panelId, title: cards.title })}
      title={<span className="print:hidden">Seat cards</span>}
      answer={<span className="print:hidden">{counted(cards.cards.length, 'card')}, six to a page, A4 or Letter.</span>}
      act={found.address && <PrintButton words="Print the cards" />}
    >
      <PrintSheet foot={`Seat cards, ${cards.title}, printed ${printed}`} />
      <div className="screen-only">
        <AddressChoice found={found} action={chooseAddressAction.bind(null, `/panels/${panelId}/cards`)} />
      </div>
      {found.address && (
        <ul className="grid gap-4 sm:grid-cols-2 print:grid-cols-2 print:gap-0">
          {cards.cards.map(({ number, token }) => (
            <SeatCard
              key={number}
              number={number}
              title={cards.publicTitle}
              address={`${found.address}/seat/${token}`}
            />
          ))}
        </ul>
      )}
    </Page>
  )
}
