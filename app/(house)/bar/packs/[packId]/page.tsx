import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readPackLabel } from '@/lib/tasks/bar/read-packs'
import { theWorld } from '@/lib/tasks/world'
import { sayDay } from '@/app/ui/moment'
import { Page } from '@/app/ui/page-frame'
import { PrintButton } from '@/app/ui/print-button'
import { PrintSheet } from '@/app/ui/print-sheet'
import { packName } from '../pack-list'
import { PackLabelCard } from './pack-label-card'

export const metadata: Metadata = { title: 'Label of an opened pack' }

export default async function PackLabelPage({ params }: { params: Promise<{ packId: string }> }) {
  const member = await requireMember('bar:make')
  const { packId } = await params
  const label = await readPackLabel(theWorld(), member, packId, canDo(member, 'recipe:read'))
  if (!label) notFound()
  const { timeZone: zone } = member.cafe
  return (
    <Page
      trail={[
        { href: '/bar', words: 'Bar' },
        { href: '/bar/packs', words: 'Opened packs' },
      ]}
      title={<span className="print:hidden">Label: {packName(label)}</span>}
      act={<PrintButton words="Print the label" />}
    >
      <PrintSheet foot={`Label, printed ${sayDay(theWorld().now(), zone)}`} />
      <div className="max-w-sm">
        <PackLabelCard label={label} zone={zone} />
      </div>
    </Page>
  )
}
