import type { Metadata } from 'next'
import { notFound, redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { ButtonLink } from '@/app/ui/button'
import { Page } from '@/app/ui/page-frame'
import { panelTrail } from '../../panel-words'
import { closeAction } from './actions'
import { OpenEnds } from './open-ends'
import { sayUnfinished } from './say-unfinished'

export const metadata: Metadata = { title: 'Close the panel' }

export default async function ClosePanelPage({ params }: { params: Promise<{ panelId: string }> }) {
  const member = await requireMember('panel:run')
  const { panelId } = await params
  const progress = await readProgress(theWorld(), member, panelId)
  if (!progress) notFound()
  if (progress.stage !== 'open') redirect(`/panels/${panelId}`)
  return (
    <Page
      trail={panelTrail({ id: panelId, title: progress.title })}
      title="Close this panel?"
      answer={sayUnfinished(progress.seats)}
    >
      <OpenEnds seats={progress.seats} zone={member.cafe.timeZone} />
      <ActForm
        id="close-panel"
        action={closeAction.bind(null, panelId)}
        submit="Close for good and unblind"
        submitLook="stop"
        refused="Not closed"
        beside={
          <ButtonLink look="plain" href={`/panels/${panelId}`}>
            Not yet, back to the panel
          </ButtonLink>
        }
      >
        <p className="max-w-prose">
          Closing cannot be undone. It shows which cup is which, and that is recorded with your name. A score that
          arrives later is kept and marked late, and never counted.
        </p>
      </ActForm>
    </Page>
  )
}
