import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readBuilt } from '@/lib/tasks/trial/read-built'
import { theWorld } from '@/lib/tasks/world'
import { Empty, Page } from '@/app/ui/page-frame'
import { once, type Query } from '@/app/ui/query'
import { openToWhoServes } from '../../../open-to-who-serves'
import { BuiltActs, FrozenWords, TakenNotice } from './built-head'
import { BuiltList, Repeats } from './built-parts'

export const metadata: Metadata = { title: 'Who built it' }

interface Props {
  params: Promise<{ trialId: string }>
  searchParams: Query
}

export default async function BuiltPage({ params, searchParams }: Props) {
  const member = await requireMember('recipe:read')
  const { trialId } = await params
  await openToWhoServes(member, { trialId })
  const { taken, refused } = await once(searchParams)
  const sheet = await readBuilt(theWorld(), member, trialId)
  if (!sheet) notFound()
  const { trial, built } = sheet
  const writes = canDo(member, 'recipe:write')
  return (
    <Page
      trail={[{ href: `/trials/${trialId}`, words: `Trial ${trial.number}` }]}
      title={`Who built it: ${trial.name}`}
      answer="Each time somebody built it beside the scale and kept what it read. It tells how well the sheet can be built, not who is good at it."
      act={<BuiltActs sheet={sheet} writes={writes} />}
    >
      <TakenNotice taken={taken} refused={refused} />
      {writes && trial.isFrozen && built.length > 0 && <FrozenWords />}
      {built.length === 0 ? (
        <Empty words="Nobody has kept what the scale read while building this yet." />
      ) : (
        <>
          <Repeats sheet={sheet} />
          <BuiltList sheet={sheet} zone={member.cafe.timeZone} takes={writes && !trial.isFrozen} />
        </>
      )}
    </Page>
  )
}
