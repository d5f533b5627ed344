import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readMakeForm } from '@/lib/forms/make-form'
import { gramsOnShelf, readOnShelf } from '@/lib/tasks/bar/on-shelf'
import { readMake } from '@/lib/tasks/trial/read-make'
import { theWorld } from '@/lib/tasks/world'
import { sayDay } from '@/app/ui/moment'
import { Page } from '@/app/ui/page-frame'
import { MadeFirst } from '@/app/ui/made-first'
import { PastBatches } from '@/app/ui/past-batches'
import { TodaysBatches } from '@/app/ui/todays-batches'
import { PrintButton } from '@/app/ui/print-button'
import { PrintSheet } from '@/app/ui/print-sheet'
import { once, type Query } from '@/app/ui/query'
import { openToWhoServes } from '../../../open-to-who-serves'
import { keepCountsAction } from './actions'
import { Kept } from './kept'
import { MakeFields } from './make-fields'
import { MakeLists } from './make-lists'
import { sayMake } from './say-make'

export const metadata: Metadata = { title: 'Make many' }

interface Props {
  params: Promise<{ trialId: string }>
  searchParams: Query
}

export default async function MakePage({ params, searchParams }: Props) {
  const member = await requireMember('recipe:read')
  const { trialId } = await params
  await openToWhoServes(member, { trialId })
  const query = await once(searchParams)
  const form = readMakeForm(query)
  const onShelf = await readOnShelf(theWorld(), member, trialId, query)
  const read = await readMake(theWorld(), member, trialId, form.asked, gramsOnShelf(onShelf))
  if (!read) notFound()
  const { sheet, first, make } = read
  return (
    <Page
      trail={[{ href: `/trials/${trialId}`, words: `Trial ${sheet.trial.number}` }]}
      title={`Make many: ${sheet.trial.name}`}
      answer={sayMake(form.asked, make)}
      act={make?.known && <PrintButton words="Print this list" />}
    >
      <PrintSheet foot={`${sheet.trial.name}, printed ${sayDay(theWorld().now(), member.cafe.timeZone)}`} />
      <PastBatches past={sheet.past} undated={sheet.undated} zone={member.cafe.timeZone} />
      <TodaysBatches todays={sheet.todays} zone={member.cafe.timeZone} />
      <MadeFirst first={first} />
      <Kept kept={query['kept']} />
      <MakeFields
        form={form}
        onShelf={onShelf}
        keep={canDo(member, 'recipe:write') ? keepCountsAction.bind(null, trialId) : null}
      />
      {make?.known && <MakeLists make={make} first={first} onShelf={onShelf} currency={member.cafe.currency} />}
    </Page>
  )
}
