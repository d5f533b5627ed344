import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readProgress, type Progress } from '@/lib/tasks/pour/read-progress'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { Page, Section } from '@/app/ui/page-frame'
import { SeatWatch } from '@/app/ui/seat-watch'
import { panelTrail, panelsStep } from '../../panel-words'
import { SeatChangePart } from '../seat-parts'
import { SetAsidePart, TakeBackIn } from '../set-aside-part'

export const metadata: Metadata = { title: 'Watch the seats' }

export default async function WatchPage({ params }: { params: Promise<{ panelId: string }> }) {
  const member = await requireMember('panel:progress')
  const { panelId } = await params
  const progress = await readProgress(theWorld(), member, panelId)
  if (!progress) notFound()
  const runs = canDo(member, 'panel:run')
  const trail = canDo(member, 'panel:read') ? panelTrail({ id: panelId, title: progress.title }) : [panelsStep]
  const isOpen = progress.stage === 'open'
  return (
    <Page trail={trail} title={`Watching: ${progress.title}`}>
      <SeatWatch first={progress} from={`/panels/${panelId}/progress`} zone={member.cafe.timeZone}>
        {runs && isOpen && (
          <p>
            <ButtonLink look="plain" href={`/panels/${panelId}/close`}>
              Go to closing
            </ButtonLink>
          </p>
        )}
      </SeatWatch>
      {runs && isOpen && (
        <>
          <Section title="When a seat changes">
            <div className="max-w-prose">
              <SeatChangePart panelId={panelId} />
            </div>
          </Section>
          <Section title="When a seat cannot be trusted">
            <div className="grid gap-4">
              <TakeBackIn panelId={panelId} from="watch" seats={numbersOf(progress)} />
              <SetAsidePart panelId={panelId} from="watch" />
            </div>
          </Section>
        </>
      )}
    </Page>
  )
}

const numbersOf = ({ seats }: Progress) => seats.flatMap(({ aside, number }) => (aside === null ? [] : [number]))
