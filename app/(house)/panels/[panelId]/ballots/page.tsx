import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readBallots } from '@/lib/tasks/pour/read-ballots'
import { theWorld } from '@/lib/tasks/world'
import { sayMoment } from '@/app/ui/moment'
import { Empty, Page } from '@/app/ui/page-frame'
import { PrintButton } from '@/app/ui/print-button'
import { PrintSheet } from '@/app/ui/print-sheet'
import { once, type Query } from '@/app/ui/query'
import { counted, panelTrail } from '../../panel-words'
import { phoneAddress } from '../../phone-address'
import { Ballot } from './ballot'
import { BallotWays } from './ballot-ways'

export const metadata: Metadata = { title: 'Ballots on paper' }

interface Doors {
  readonly params: Promise<{ panelId: string }>
  readonly searchParams: Query
}

export default async function BallotsPage({ params, searchParams }: Doors) {
  const member = await requireMember('panel:run')
  const { panelId } = await params
  const free = (await once(searchParams))['free'] === 'yes'
  const ballots = await readBallots(theWorld(), member, panelId, free)
  if (!ballots) notFound()
  const found = await phoneAddress()
  const { seats } = ballots
  const printed = sayMoment(theWorld().now(), member.cafe.timeZone)
  return (
    <Page
      trail={panelTrail({ id: panelId, title: ballots.title })}
      title={<span className="print:hidden">Ballots on paper</span>}
      answer={
        <span className="print:hidden">
          {counted(seats.length, 'ballot')}, each from a page of its own, A4 or Letter. Print on one side: what is on
          the back belongs to another seat.
        </span>
      }
      act={seats.length > 0 && <PrintButton words="Print the ballots" />}
    >
      <PrintSheet foot={`${ballots.publicTitle}, printed ${printed}`} />
      <BallotWays panelId={panelId} free={free} found={found} />
      {seats.length === 0 && <Empty words="No seat answers on paper yet." />}
      <div className="grid gap-6 print:block">
        {seats.map((seat) => (
          <Ballot
            key={seat.number}
            head={ballots}
            seat={seat}
            address={found.address ? `${found.address}/seat/${seat.token}` : null}
          />
        ))}
      </div>
    </Page>
  )
}
