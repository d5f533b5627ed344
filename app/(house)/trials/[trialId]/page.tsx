import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { theWorld } from '@/lib/tasks/world'
import { BuildFiguresView } from '@/app/ui/build-figures'
import { ChangeTable } from '@/app/ui/change-table'
import { Notice } from '@/app/ui/notice'
import { Page, Section } from '@/app/ui/page-frame'
import { PastBatches } from '@/app/ui/past-batches'
import { MendedSince, sayFiguresOf, TrialActs, TrialSentence } from './trial-head'
import { CompareForm, Lines, Notes, Weighings } from './trial-parts'

export const metadata: Metadata = { title: 'Trial' }

export default async function TrialPage({ params }: { params: Promise<{ trialId: string }> }) {
  const member = await requireMember('recipe:read')
  const { trialId } = await params
  const sheet = await readTrial(theWorld(), member, trialId)
  if (!sheet) notFound()
  const { trial, figures, parent } = sheet
  const writes = canDo(member, 'recipe:write')
  return (
    <Page
      trail={[
        { href: '/recipes', words: 'Recipes' },
        { href: `/recipes/${trial.recipeId}`, words: trial.recipe.name },
      ]}
      title={`Trial ${trial.number}: ${trial.name}`}
      answer={<TrialSentence sheet={sheet} />}
      act={<TrialActs sheet={sheet} writes={writes} />}
    >
      <PastBatches past={sheet.past} zone={member.cafe.timeZone} />
      <Section title="What goes in" aside={sheet.methodWords}>
        <Lines sheet={sheet} />
      </Section>
      {parent && (
        <Section title={`What changed from trial ${parent.with.number}`}>
          {parent.warning && <Notice look="caution">{parent.warning}</Notice>}
          <ChangeTable comparison={parent} after={trial.name} />
        </Section>
      )}
      <Section title="What it makes" aside={sayFiguresOf(sheet, member.cafe.timeZone)}>
        <MendedSince mended={sheet.mended} />
        <BuildFiguresView figures={figures} currency={member.cafe.currency} vessel={trial.vessel?.name ?? null} />
      </Section>
      <Weighings sheet={sheet} zone={member.cafe.timeZone} />
      <Section title="Notes" aside="Added, never rewritten">
        <Notes notes={sheet.notes} trialId={trialId} zone={member.cafe.timeZone} writes={writes} />
      </Section>
      <CompareForm trialId={trialId} others={sheet.others} />
    </Page>
  )
}
