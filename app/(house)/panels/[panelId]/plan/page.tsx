import type { Metadata } from 'next'
import { notFound, redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readPlanBasis } from '@/lib/tasks/plan/read-plan-basis'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { Page } from '@/app/ui/page-frame'
import { changePlanAction } from '../../actions'
import { panelTrail } from '../../panel-words'
import { planAsTyped } from '../../plan-defaults'
import { firstFigures } from '../../first-figures'
import { PlanForm } from '../../plan-form'

export const metadata: Metadata = { title: 'Change the plan' }

export default async function PanelPlanPage({ params }: { params: Promise<{ panelId: string }> }) {
  const member = await requireMember('panel:run')
  const { panelId } = await params
  const panel = await readPanel(theWorld(), member, panelId)
  if (!panel) notFound()
  if (panel.stage !== 'draft') redirect(`/panels/${panelId}`)
  const basis = await readPlanBasis(theWorld(), member, panel.recipe.id)
  if (!basis) notFound()
  const defaults = planAsTyped(panel, basis.houseTrialId !== null)
  return (
    <Page
      trail={panelTrail(panel)}
      title="Change the plan"
      answer={`A draft about ${panel.recipe.name}. Opening fixes it for good.`}
      act={
        <ButtonLink look="plain" href={`/panels/${panelId}`}>
          Leave it as it was
        </ButtonLink>
      }
    >
      <PlanForm
        id={`plan-${panelId}`}
        basis={basis}
        opened={panel.mark}
        defaults={defaults}
        figures={await firstFigures(theWorld(), member, basis.recipe.id, defaults)}
        action={changePlanAction.bind(null, panelId)}
        submit="Keep this plan"
      />
    </Page>
  )
}
