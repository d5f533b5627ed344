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
import { CupLabels } from './cup-labels'

export const metadata: Metadata = { title: 'Cup labels' }

export default async function CupLabelsPage({ params }: { params: Promise<{ panelId: string }> }) {
  const member = await requireMember('panel:run')
  const { panelId } = await params
  const mats = await readMats(theWorld(), member, panelId)
  if (!mats) notFound()
  const printed = sayMoment(theWorld().now(), member.cafe.timeZone)
  const labels = mats.seats.reduce((all, { codes }) => all + codes.length, 0)
  return (
    <Page
      trail={panelTrail({ id: panelId, title: mats.title })}
      title={<span className="print:hidden">Cup labels</span>}
      answer={<span className="print:hidden">{counted(labels, 'label')}, cut along the dashes, seat by seat.</span>}
      act={<PrintButton words="Print the labels" />}
    >
      <PrintSheet foot={`${mats.publicTitle}, printed ${printed}`} />
      <p className="screen-only max-w-prose">
        Stick each label on its cup before anything is poured: whoever pours then reads the code off the serving list,
        and nothing on the cup tells more.
      </p>
      <CupLabels mats={mats} />
    </Page>
  )
}
