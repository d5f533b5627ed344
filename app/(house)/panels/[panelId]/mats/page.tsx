import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readMats } from '@/lib/tasks/pour/read-mats'
import { theWorld } from '@/lib/tasks/world'
import { sayMoment } from '@/app/ui/moment'
import { Page } from '@/app/ui/page-frame'
import { PrintButton } from '@/app/ui/print-button'
import { PrintSheet } from '@/app/ui/print-sheet'
import { counted, panelTrail } from '../../panel-words'
import { TrayMat } from './tray-mat'

export const metadata: Metadata = { title: 'Tray mats' }

export default async function MatsPage({ params }: { params: Promise<{ panelId: string }> }) {
  const member = await requireMember('panel:run')
  const { panelId } = await params
  const mats = await readMats(theWorld(), member, panelId)
  if (!mats) notFound()
  const printed = sayMoment(theWorld().now(), member.cafe.timeZone)
  return (
    <Page
      trail={panelTrail({ id: panelId, title: mats.title })}
      title={<span className="print:hidden">Tray mats</span>}
      answer={<span className="print:hidden">{counted(mats.seats.length, 'mat')}, one page each, A4 on its side.</span>}
      act={<PrintButton words="Print the mats" />}
    >
      <PrintSheet foot={`${mats.publicTitle}, printed ${printed}`} landscape />
      <p className="screen-only max-w-prose">
        The mat shows where each cup stands; the serving list says what is poured into it. Whoever pours sets the cup on
        its circle and reads its code with the line below.
      </p>
      <div className="grid gap-6 print:block">
        {mats.seats.map((seat) => (
          <TrayMat key={seat.number} publicTitle={mats.publicTitle} seat={seat} />
        ))}
      </div>
    </Page>
  )
}
