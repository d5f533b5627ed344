import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { theWorld } from '@/lib/tasks/world'
import { Page } from '@/app/ui/page-frame'
import { PastBatches } from '@/app/ui/past-batches'
import { panelsStep } from '../panel-words'
import { CupBatches } from './cup-batches'
import { DraftParts, OpenAct } from './draft-parts'
import { OpenParts, OpenStageAct } from './open-parts'
import { OverAct, OverParts } from './over-parts'
import { sayStage } from './say-stage'

export const metadata: Metadata = { title: 'Panel' }

export default async function PanelPage({ params }: { params: Promise<{ panelId: string }> }) {
  const member = await requireMember('panel:read')
  const { panelId } = await params
  const panel = await readPanel(theWorld(), member, panelId)
  if (!panel) notFound()
  const progress = await readProgress(theWorld(), member, panelId)
  const runs = canDo(member, 'panel:run')
  const zone = member.cafe.timeZone
  const trail = [panelsStep, { href: `/recipes/${panel.recipe.id}`, words: panel.recipe.name }]
  const past = panel.cups.flatMap((cup) => cup.past)
  const answer = sayStage(panel, progress, zone)

  if (panel.stage === 'draft') {
    return (
      <Page trail={trail} title={panel.title} answer={answer} act={runs && <OpenAct panel={panel} />}>
        <PastBatches past={past} zone={zone} />
        <CupBatches panel={panel} zone={zone} />
        <DraftParts panel={panel} zone={zone} runs={runs} />
      </Page>
    )
  }
  if (panel.stage === 'open') {
    return (
      <Page
        trail={trail}
        title={panel.title}
        answer={answer}
        act={runs && <OpenStageAct panel={panel} progress={progress} />}
      >
        <PastBatches past={past} zone={zone} />
        <CupBatches panel={panel} zone={zone} />
        <OpenParts panel={panel} progress={progress} zone={zone} runs={runs} />
      </Page>
    )
  }
  return (
    <Page trail={trail} title={panel.title} answer={answer} act={<OverAct panel={panel} runs={runs} />}>
      <OverParts panel={panel} zone={zone} />
    </Page>
  )
}
