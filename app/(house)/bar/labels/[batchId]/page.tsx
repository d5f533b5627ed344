import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readLabel } from '@/lib/tasks/bar/read-label'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { sayDay } from '@/app/ui/moment'
import { Page } from '@/app/ui/page-frame'
import { PrintButton } from '@/app/ui/print-button'
import { PrintSheet } from '@/app/ui/print-sheet'
import { openToWhoServes } from '../../../open-to-who-serves'
import { BottleLabel } from './bottle-label'

export const metadata: Metadata = { title: 'Labels' }

/** As many as fill a sheet of A4 or Letter. */
const ON_A_SHEET = 8

export default async function LabelsPage({ params }: { params: Promise<{ batchId: string }> }) {
  const member = await requireMember('bar:make')
  const { batchId } = await params
  await openToWhoServes(member, { batchId })
  const label = await readLabel(theWorld(), member, batchId, canDo(member, 'recipe:read'))
  if (!label) notFound()
  const { timeZone: zone } = member.cafe
  return (
    <Page
      trail={[{ href: '/bar', words: 'Bar' }]}
      title={
        <span className="print:hidden">
          Labels: {label.name}, batch {label.number}
        </span>
      }
      answer={<span className="print:hidden">{`${ON_A_SHEET} to a page, A4 or Letter.`}</span>}
      act={
        <>
          <PrintButton words="Print the labels" />
          <ButtonLink look="plain" href={`/bar/batches/${label.preparationId}#cooling`}>
            Cooling
          </ButtonLink>
        </>
      }
    >
      <PrintSheet foot={`Labels, printed ${sayDay(theWorld().now(), zone)}`} />
      <ul className="grid gap-4 sm:grid-cols-2 print:grid-cols-2 print:gap-0">
        {Array.from({ length: ON_A_SHEET }, (_, place) => (
          <BottleLabel key={place} label={label} zone={zone} />
        ))}
      </ul>
    </Page>
  )
}
