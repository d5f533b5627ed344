import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { Page } from '@/app/ui/page-frame'
import { SeatWatch } from '@/app/ui/seat-watch'
import { once, type Query } from '@/app/ui/query'
import { panelTrail, panelsStep } from '../../panel-words'
import { SeatActs } from './seat-acts'

export const metadata: Metadata = { title: 'Watch the seats' }

interface Doors {
  readonly params: Promise<{ panelId: string }>
  readonly searchParams: Query
}

export default async function WatchPage({ params, searchParams }: Doors) {
  const member = await requireMember('panel:progress')
  const { panelId } = await params
  const { seat } = await once(searchParams)
  const progress = await readProgress(theWorld(), member, panelId)
  if (!progress) notFound()
  const runs = canDo(member, 'panel:run')
  const trail = canDo(member, 'panel:read') ? panelTrail({ id: panelId, title: progress.title }) : [panelsStep]
  const isOpen = progress.stage === 'open'
  return (
    <Page trail={trail} title={`Watching: ${progress.title}`}>
      <SeatWatch
        first={progress}
        from={`/panels/${panelId}/progress`}
        zone={member.cafe.timeZone}
        actAt={runs && isOpen ? `/panels/${panelId}/watch?seat=` : undefined}
      >
        {runs && isOpen && (
          <p>
            <ButtonLink look="plain" href={`/panels/${panelId}/close`}>
              Go to closing
            </ButtonLink>
          </p>
        )}
      </SeatWatch>
      {runs && isOpen && <SeatActs panelId={panelId} progress={progress} chosen={Number(seat)} />}
    </Page>
  )
}
