import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { clockIn } from '@/lib/base/zone-time'
import { readBatchesOf, readBatchOffer, readPreparation } from '@/lib/tasks/store/read-preparation'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { Page } from '@/app/ui/page-frame'
import { partChoice } from '@/app/ui/part-choice'
import { recordBatchAction } from '../../../actions'
import { BatchFields } from '../batch-fields'

export const metadata: Metadata = { title: 'A batch' }

export default async function NewBatchPage({ params }: { params: Promise<{ preparationId: string }> }) {
  const member = await requireMember('recipe:write')
  const { preparationId } = await params
  const preparation = await readPreparation(theWorld(), member, preparationId)
  if (!preparation) notFound()
  const parts = await readBatchOffer(theWorld(), member, null)
  const [last] = (await readBatchesOf(theWorld(), member, preparationId, null)).batches
  return (
    <Page
      trail={[
        { href: '/store', words: 'Store' },
        { href: `/store/preparations/${preparationId}`, words: preparation.name },
      ]}
      title={`Batch ${(last?.number ?? 0) + 1} of ${preparation.name}`}
    >
      <ActForm
        id="batch"
        action={recordBatchAction.bind(null, preparationId)}
        keep={`batch-${preparationId}`}
        defaults={{ madeAt: clockIn(theWorld().now(), member.cafe.timeZone) }}
        submit="Record the batch"
        className="max-w-xl"
      >
        <BatchFields parts={parts.map(partChoice)} kind={preparation.kind} />
      </ActForm>
    </Page>
  )
}
