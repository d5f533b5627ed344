import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readResult } from '@/lib/tasks/result/read-result'
import { readResultGlasses } from '@/lib/tasks/result/read-result-glasses'
import { theWorld } from '@/lib/tasks/world'
import { sayDay, sayMoment } from '@/app/ui/moment'
import { Page } from '@/app/ui/page-frame'
import { PrintButton } from '@/app/ui/print-button'
import { PrintSheet } from '@/app/ui/print-sheet'
import { ResultSheet } from '../result/result-sheet'
import { DecisionsMade } from '../result/verdict-parts'

export const metadata: Metadata = { title: 'Result to print' }

export default async function SheetPage({ params }: { params: Promise<{ panelId: string }> }) {
  const member = await requireMember('panel:read')
  const { panelId } = await params
  const [result, glasses] = await Promise.all([
    readResult(theWorld(), member, panelId),
    readResultGlasses(theWorld(), member, panelId),
  ])
  if (!result || !glasses) redirect(`/panels/${panelId}`)
  const zone = member.cafe.timeZone
  return (
    <Page
      trail={[
        { href: `/panels/${panelId}`, words: result.title },
        { href: `/panels/${panelId}/result`, words: 'Result' },
      ]}
      title={result.verdict.sentence}
      answer={`“${result.title}”: ${result.question} ${result.closedAt ? `Closed ${sayDay(result.closedAt, zone)}.` : ''}`}
      act={<PrintButton />}
    >
      <PrintSheet foot={`${member.cafe.name}, ${result.title}, printed ${sayMoment(theWorld().now(), zone)}`} />
      <DecisionsMade result={result} zone={zone} />
      <ResultSheet result={result} glasses={glasses} zone={zone} currency={member.cafe.currency} />
    </Page>
  )
}
