import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readBatchMassForm } from '@/lib/forms/batch-mass-form'
import { clockIn } from '@/lib/base/zone-time'
import { readFormulaStart } from '@/lib/tasks/store/read-formula'
import { readBatchesOf, readBatchOffer, readLastBatch, readPreparation } from '@/lib/tasks/store/read-preparation'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { Page } from '@/app/ui/page-frame'
import { partChoice } from '@/app/ui/part-choice'
import { once, type Query } from '@/app/ui/query'
import { recordBatchAction } from '../../../actions'
import { defaultsOfStart } from '../[batchId]/edit/batch-defaults'
import { BatchFields } from '../batch-fields'
import { sayFormulaStart } from './say-formula-start'

export const metadata: Metadata = { title: 'A batch' }

interface Props {
  params: Promise<{ preparationId: string }>
  searchParams: Query
}

export default async function NewBatchPage({ params, searchParams }: Props) {
  const member = await requireMember('recipe:write')
  const { preparationId } = await params
  const preparation = await readPreparation(theWorld(), member, preparationId)
  if (!preparation) notFound()
  const asked = await once(searchParams)
  const begun = asked['from'] === 'last' ? await readLastBatch(theWorld(), member, preparationId) : null
  const formula = asked['from'] === 'formula' ? await readFormulaStart(theWorld(), member, preparationId) : null
  const parts = await readBatchOffer(theWorld(), member, begun?.row.id ?? null)
  const madeAt = clockIn(theWorld().now(), member.cafe.timeZone)
  const { grams } = readBatchMassForm(asked)
  const [last] = (await readBatchesOf(theWorld(), member, preparationId, null)).batches
  return (
    <Page
      trail={[
        { href: '/store', words: 'Store' },
        { href: `/store/preparations/${preparationId}`, words: preparation.name },
      ]}
      title={`Batch ${(last?.number ?? 0) + 1} of ${preparation.name}`}
      answer={formula && sayFormulaStart(formula)}
    >
      <ActForm
        id="batch"
        action={recordBatchAction.bind(null, preparationId)}
        keep={`batch-${preparationId}${begun ? '-again' : ''}${formula ? `-${formula.row.version}` : ''}`}
        defaults={defaultsOfStart({ begun, formula, grams, madeAt })}
        submit="Record the batch"
        className="max-w-xl"
      >
        <BatchFields parts={parts.map(partChoice)} kind={preparation.kind} formulaId={formula?.row.id} />
      </ActForm>
    </Page>
  )
}
