import type { Metadata } from 'next'
import { notFound, redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { ButtonLink } from '@/app/ui/button'
import { CheckField } from '@/app/ui/field'
import { Page, Section } from '@/app/ui/page-frame'
import { PastBatches } from '@/app/ui/past-batches'
import { panelTrail, sayComparison } from '../../panel-words'
import { openAction } from '../actions'
import { mayOpen } from '../may-open'
import { CupBatches } from '../cup-batches'
import { WhatIsFixed } from './what-is-fixed'

export const metadata: Metadata = { title: 'Open the panel' }

/** Asked once, because it cannot be taken back: what becomes fixed, in the words of this panel. */
export default async function OpenPanelPage({ params }: { params: Promise<{ panelId: string }> }) {
  const member = await requireMember('panel:run')
  const { panelId } = await params
  const panel = await readPanel(theWorld(), member, panelId)
  if (!panel) notFound()
  if (panel.stage !== 'draft' || !mayOpen(panel)) redirect(`/panels/${panelId}`)
  const past = panel.cups.flatMap((cup) => cup.past)
  return (
    <Page trail={panelTrail(panel)} title="Open this panel?" answer={sayComparison(panel)}>
      <PastBatches past={past} zone={member.cafe.timeZone} />
      <CupBatches panel={panel} zone={member.cafe.timeZone} />
      <Section title="What becomes fixed">
        <WhatIsFixed panel={panel} />
      </Section>
      <ActForm
        id="open-panel"
        action={openAction.bind(null, panelId)}
        submit="Yes, open it"
        refused="Not opened"
        beside={
          <ButtonLink look="plain" href={`/panels/${panelId}`}>
            Not yet, back to the plan
          </ButtonLink>
        }
      >
        {past.length > 0 && (
          <CheckField
            name="pourFresh"
            label="What is past its date is thrown away: another batch, in date, is poured in its place."
          />
        )}
        <p className="max-w-prose">
          Opening cannot be undone. As long as nobody has tasted, an open panel can still be called off; its trials stay
          frozen then.
        </p>
      </ActForm>
    </Page>
  )
}
