import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readBuilt } from '@/lib/tasks/trial/read-built'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { Notice } from '@/app/ui/notice'
import { Empty, Page } from '@/app/ui/page-frame'
import { once, type Query } from '@/app/ui/query'
import { BuiltList, Repeats } from './built-parts'
import { sayTakeRefusal } from './say-built'

export const metadata: Metadata = { title: 'Who built it' }

interface Props {
  params: Promise<{ trialId: string }>
  searchParams: Query
}

export default async function BuiltPage({ params, searchParams }: Props) {
  const member = await requireMember('recipe:read')
  const { trialId } = await params
  const { taken, refused } = await once(searchParams)
  const sheet = await readBuilt(theWorld(), member, trialId)
  if (!sheet) notFound()
  const { trial, built } = sheet
  const refusal = Object.entries(sayTakeRefusal).find(([reason]) => reason === refused)?.[1]
  const writes = canDo(member, 'recipe:write')
  return (
    <Page
      trail={[{ href: `/trials/${trialId}`, words: `Trial ${trial.number}` }]}
      title={`Who built it: ${trial.name}`}
      answer="Each time somebody built it beside the scale and kept what it read. It tells how well the sheet can be built, not who is good at it."
      act={
        <>
          <ButtonLink href={`/trials/${trialId}/scale`}>Beside the scale</ButtonLink>
          {writes && trial.isFrozen && (
            <ButtonLink look="plain" href={`/trials/${trialId}/vary`}>
              Make another from it
            </ButtonLink>
          )}
        </>
      }
    >
      {taken && /^\d+$/.test(taken) && (
        <Notice live>
          {taken === '1' ? 'One line has' : `${taken} lines have`} the weight of that building now, for one glass.
        </Notice>
      )}
      {refusal && (
        <Notice look="caution" live>
          {refusal}
        </Notice>
      )}
      {writes && trial.isFrozen && built.length > 0 && (
        <p className="max-w-prose text-soft">
          This trial is frozen: what it was made with stays. To go on with the weights of a building, make another trial
          from it.
        </p>
      )}
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
