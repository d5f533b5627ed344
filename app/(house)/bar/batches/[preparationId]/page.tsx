import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readBatchMassForm } from '@/lib/forms/batch-mass-form'
import { readBarBatch } from '@/lib/tasks/bar/read-bar-batch'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { sayDay } from '@/app/ui/moment'
import { Empty, Page } from '@/app/ui/page-frame'
import { PastBatches } from '@/app/ui/past-batches'
import { PrintButton } from '@/app/ui/print-button'
import { PrintSheet } from '@/app/ui/print-sheet'
import { once, type Query } from '@/app/ui/query'
import { openToWhoServes } from '../../../open-to-who-serves'
import { CoolingOnShelf } from '../../cooling-part'
import { BatchCautions, BatchSteps, recordHref } from './batch-steps'
import { MassFields } from './mass-fields'

export const metadata: Metadata = { title: 'Make a batch' }

interface Props {
  params: Promise<{ preparationId: string }>
  searchParams: Query
}

export default async function BarBatchPage({ params, searchParams }: Props) {
  const member = await requireMember('bar:make')
  const { preparationId } = await params
  await openToWhoServes(member, { preparationId })
  const form = readBatchMassForm(await once(searchParams))
  const batch = await readBarBatch(theWorld(), member, preparationId, form, canDo(member, 'recipe:read'))
  if (!batch) notFound()
  return (
    <Page
      trail={[{ href: '/bar', words: 'Bar' }]}
      title={`Make ${batch.name}`}
      act={
        <>
          <PrintButton words="Print this" />
          <ButtonLink look="plain" href={recordHref(preparationId, batch)}>
            Record it
          </ButtonLink>
        </>
      }
    >
      <PrintSheet foot={`${batch.name}, printed ${sayDay(theWorld().now(), member.cafe.timeZone)}`} />
      <BatchCautions batch={batch} />
      <PastBatches past={batch.past} zone={member.cafe.timeZone} />
      {batch.from ? (
        <>
          <MassFields form={form} other={batch.hasFormula ? preparationId : null} />
          <BatchSteps batch={batch} pot={form.pot} />
        </>
      ) : (
        <Empty words="It has no formula and no batch of it was ever weighed out, so nobody can say what goes in. Ask who develops it." />
      )}
      <CoolingOnShelf member={member} preparationId={preparationId} keptAt={batch.storageCelsius} />
    </Page>
  )
}
