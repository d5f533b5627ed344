import type { Metadata } from 'next'
import { notFound, redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { batchMark } from '@/lib/tasks/opened-with'
import { readBatch, readBatchOffer } from '@/lib/tasks/store/read-preparation'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { Page } from '@/app/ui/page-frame'
import { partChoice } from '@/app/ui/part-choice'
import { openToWhoServes } from '../../../../../../open-to-who-serves'
import { correctBatchAction } from '../../../../actions'
import { BatchFields } from '../../batch-fields'
import { batchDefaults } from './batch-defaults'

export const metadata: Metadata = { title: 'Correct a batch' }

interface Props {
  params: Promise<{ preparationId: string; batchId: string }>
}

export default async function EditBatchPage({ params }: Props) {
  const member = await requireMember('recipe:write')
  const { preparationId, batchId } = await params
  await openToWhoServes(member, { batchId })
  const sheet = await readBatch(theWorld(), member, batchId)
  if (!sheet || sheet.row.preparationId !== preparationId) notFound()
  const here = `/store/preparations/${preparationId}/batches/${batchId}`
  if (sheet.row.frozenAt) redirect(here)
  const parts = await readBatchOffer(theWorld(), member, batchId)
  return (
    <Page
      trail={[
        { href: '/store', words: 'Store' },
        { href: here, words: sheet.name },
      ]}
      title="Correct a batch"
    >
      <ActForm
        id="batch"
        action={correctBatchAction.bind(null, preparationId, batchId)}
        keep={`batch-edit-${batchId}`}
        opened={batchMark(sheet.row)}
        defaults={batchDefaults(sheet, member.cafe.timeZone)}
        submit="Save"
        className="max-w-xl"
      >
        <BatchFields parts={parts.map(partChoice)} kind={sheet.row.preparation.kind} />
      </ActForm>
    </Page>
  )
}
