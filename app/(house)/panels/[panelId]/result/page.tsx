import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readResult } from '@/lib/tasks/result/read-result'
import { theWorld } from '@/lib/tasks/world'
import { Page } from '@/app/ui/page-frame'
import { BehindIt } from './behind-it'
import { ClaimsSection } from './claims'
import { DoseSection } from './dose-part'
import { GlassesSection } from './glasses'
import { MemorySection } from './memory'
import { MeansSection } from './numbers'
import { PaperAndLinks } from './paper-and-links'
import { readAround } from './read-around'
import { SeatsAside } from './seats-aside'
import { TakeAway } from './take-away'
import { Asked, DecisionsMade, HowFound, NextAct, VerdictNumbers } from './verdict-parts'

export const metadata: Metadata = { title: 'Result' }

export default async function ResultPage({ params }: { params: Promise<{ panelId: string }> }) {
  const member = await requireMember('panel:read')
  const { panelId } = await params
  const result = await readResult(theWorld(), member, panelId)
  if (!result) redirect(`/panels/${panelId}`)
  const { glasses, again, memory, shared, dose } = await readAround(theWorld(), member, panelId)
  const here = `/panels/${panelId}`
  const zone = member.cafe.timeZone
  const runs = canDo(member, 'panel:run')
  return (
    <Page
      trail={[
        { href: `/recipes/${result.recipe.id}`, words: result.recipe.name },
        { href: here, words: result.title },
      ]}
      title={result.verdict.sentence}
      answer={<Asked result={result} zone={zone} />}
      act={<NextAct result={result} here={here} decides={canDo(member, 'decide')} />}
    >
      <DecisionsMade result={result} zone={zone} />
      <ClaimsSection result={result} />
      <VerdictNumbers result={result} />
      <HowFound result={result} zone={zone} />
      <SeatsAside result={result} zone={zone} runs={runs} />
      <GlassesSection result={result} glasses={glasses ?? []} currency={member.cafe.currency} />
      <DoseSection dose={dose} result={result} glasses={glasses ?? []} here={here} />
      <MemorySection pairs={memory ?? []} zone={zone} here={panelId} />
      <MeansSection result={result} />
      <BehindIt result={result} zone={zone} runs={runs} />
      <PaperAndLinks panelId={panelId} shared={canDo(member, 'decide') ? shared : null} zone={zone} />
      {canDo(member, 'export') && <TakeAway here={here} again={again} kind={result.kind} />}
    </Page>
  )
}
