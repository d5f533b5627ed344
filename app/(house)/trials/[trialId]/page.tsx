import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { theWorld } from '@/lib/tasks/world'
import { Cautions } from '@/app/ui/cautions'
import { Page } from '@/app/ui/page-frame'
import { PastBatches } from '@/app/ui/past-batches'
import { TodaysBatches } from '@/app/ui/todays-batches'
import { Problems } from '@/app/ui/problems'
import type { Query } from '@/app/ui/query'
import { BenchPart } from './bench/bench-part'
import { homeAsked } from './home-asked'
import { Ledger } from './ledger'
import { TopCards } from './top-cards'
import { TrialDoors } from './trial-doors'
import { MendedSince, TrialSentence } from './trial-head'
import { TrialFolds } from './trial-parts'

export const metadata: Metadata = { title: 'Trial' }

type Props = { params: Promise<{ trialId: string }>; searchParams: Query }

export default async function TrialPage({ params, searchParams }: Props) {
  const member = await requireMember('recipe:read')
  const { trialId } = await params
  const sheet = await readTrial(theWorld(), member, trialId)
  if (!sheet) notFound()
  const { trial, figures } = sheet
  const { timeZone: zone, currency } = member.cafe
  const writes = canDo(member, 'recipe:write')
  return (
    <Page
      trail={[
        { href: '/recipes', words: 'Recipes' },
        { href: `/recipes/${trial.recipeId}`, words: trial.recipe.name },
      ]}
      title={`Trial ${trial.number}: ${trial.name}`}
      answer={<TrialSentence sheet={sheet} zone={zone} />}
      act={<TrialDoors sheet={sheet} writes={writes} />}
      actBeside
    >
      <div className="-mt-3 grid gap-3">
        <PastBatches past={sheet.past} undated={sheet.undated} zone={zone} />
        <TodaysBatches todays={sheet.todays} zone={zone} />
        <Problems problems={figures.problems} />
        <TopCards glass={sheet.glass} figures={figures} build={sheet.build} />
        <Ledger sheet={sheet} home={await homeAsked(searchParams, member, sheet)} />
        <Cautions said={figures.cautions} />
        <MendedSince mended={sheet.mended} />
        <TrialFolds sheet={sheet} zone={zone} currency={currency} writes={writes} />
        <BenchPart member={member} trialId={trialId} zone={zone} writes={writes} />
      </div>
    </Page>
  )
}
