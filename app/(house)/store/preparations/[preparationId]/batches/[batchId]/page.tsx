import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readBatch } from '@/lib/tasks/store/read-preparation'
import { needsCold, readCooling } from '@/lib/tasks/bar/read-cooling'
import { usesOpenTo } from '@/lib/tasks/bar/served'
import { theWorld } from '@/lib/tasks/world'
import { Page, Section } from '@/app/ui/page-frame'
import { openToWhoServes } from '../../../../../open-to-who-serves'
import { CoolingPart } from '../../../../../bar/cooling-part'
import { UsesSection } from '../../../../uses'
import { BatchActs, BatchCautions, BatchFiguresList, BatchInputs, sayBatch } from './batch-parts'

export const metadata: Metadata = { title: 'Batch' }

interface Props {
  params: Promise<{ preparationId: string; batchId: string }>
}

export default async function BatchPage({ params }: Props) {
  const member = await requireMember('recipe:read')
  const { preparationId, batchId } = await params
  await openToWhoServes(member, { batchId })
  const sheet = await readBatch(theWorld(), member, batchId)
  if (!sheet || sheet.row.preparationId !== preparationId) notFound()
  const zone = member.cafe.timeZone
  const [cooling] = await readCooling(theWorld(), member, [batchId])
  const { storageDeciC } = sheet.row.preparation
  const cools = needsCold(storageDeciC === null ? null : storageDeciC / 10)
  return (
    <Page
      trail={[
        { href: '/store', words: 'Store' },
        { href: `/store/preparations/${preparationId}`, words: sheet.row.preparation.name },
      ]}
      title={sheet.name}
      answer={sayBatch(sheet, zone)}
      act={canDo(member, 'recipe:write') && <BatchActs sheet={sheet} />}
    >
      <BatchCautions sheet={sheet} zone={member.cafe.timeZone} />
      {cooling && (cools || cooling.readings.length > 0) && (
        <CoolingPart log={cooling} zone={zone} logs={canDo(member, 'bar:make')} />
      )}
      <Section title="What went in">
        <BatchInputs sheet={sheet} />
      </Section>
      <Section title="What came out" aside="Each figure opens to its working">
        <BatchFiguresList sheet={sheet} currency={member.cafe.currency} />
      </Section>
      {sheet.row.note && <p className="max-w-prose whitespace-pre-line">{sheet.row.note}</p>}
      <UsesSection {...await usesOpenTo(theWorld(), member, sheet.uses)} />
    </Page>
  )
}
