import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { clockIn } from '@/lib/base/zone-time'
import { readBatchMassForm } from '@/lib/forms/batch-mass-form'
import { readBatchRecord } from '@/lib/tasks/bar/read-batch-record'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { Page } from '@/app/ui/page-frame'
import { partChoice } from '@/app/ui/part-choice'
import { once, type Query } from '@/app/ui/query'
import { openToWhoServes } from '../../../../open-to-who-serves'
import { defaultsFromInputs } from '../../../../store/preparations/[preparationId]/batches/[batchId]/edit/batch-defaults'
import { BatchFields } from '../../../../store/preparations/[preparationId]/batches/batch-fields'
import { recordBarBatchAction } from '../../actions'
import { sayRecord } from './say-record'

export const metadata: Metadata = { title: 'Record a batch' }

interface Props {
  params: Promise<{ preparationId: string }>
  searchParams: Query
}

export default async function RecordBatchPage({ params, searchParams }: Props) {
  const member = await requireMember('bar:make')
  const { preparationId } = await params
  await openToWhoServes(member, { preparationId })
  const { grams, asLast } = readBatchMassForm(await once(searchParams))
  const record = await readBatchRecord(theWorld(), member, preparationId, asLast, canDo(member, 'recipe:read'))
  if (!record) notFound()
  const madeAt = clockIn(theWorld().now(), member.cafe.timeZone)
  return (
    <Page
      trail={[
        { href: '/bar', words: 'Bar' },
        { href: `/bar/batches/${preparationId}`, words: `Make ${record.name}` },
      ]}
      title={`Record batch ${record.number} of ${record.name}`}
      answer={sayRecord(record)}
    >
      <ActForm
        id="batch"
        action={recordBarBatchAction.bind(null, preparationId)}
        keep={`bar-batch-${preparationId}-${record.number}${asLast ? '-again' : ''}`}
        defaults={defaultsFromInputs(record, grams, madeAt)}
        submit="Record the batch"
        className="max-w-xl"
      >
        <BatchFields
          parts={record.parts.map(partChoice)}
          kind={record.kind}
          atBar
          formulaId={record.formulaId ?? undefined}
        />
      </ActForm>
    </Page>
  )
}
