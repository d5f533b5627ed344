import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readPaperSeat } from '@/lib/tasks/pour/read-paper-seat'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { theWorld } from '@/lib/tasks/world'
import { Cautions } from '@/app/ui/cautions'
import { Fold, Page } from '@/app/ui/page-frame'
import { once, type Query } from '@/app/ui/query'
import { panelTrail } from '../../panel-words'
import { PaperSeatForm } from './paper-seat-form'
import { PaperNotices } from './paper-notices'
import { findPutRefusal } from './say-put'
import { SeatChoice } from './seat-choice'

export const metadata: Metadata = { title: 'Scores from paper' }

interface Doors {
  readonly params: Promise<{ panelId: string }>
  readonly searchParams: Query
}

export default async function PaperPage({ params, searchParams }: Doors) {
  const member = await requireMember('panel:run')
  const { panelId } = await params
  const { seat: typed, kept, refused } = await once(searchParams)
  const progress = await readProgress(theWorld(), member, panelId)
  if (progress?.stage !== 'open') notFound()
  const told = (await readPanel(theWorld(), member, panelId))?.cautions.said ?? []
  const number = Number(typed)
  const seat = Number.isInteger(number) ? await readPaperSeat(theWorld(), member, panelId, number) : null
  return (
    <Page
      trail={panelTrail({ id: panelId, title: progress.title })}
      title={seat ? `Scores from paper: seat ${seat.number}` : 'Scores from paper'}
      answer={
        seat
          ? 'Copy the sheet as it is written; what it leaves blank stays blank, and what you blank here is taken back.'
          : 'Whose sheet is it?'
      }
    >
      <Fold words="Read this to whoever tastes on paper, before the first cup" open={!seat}>
        <p className="mb-2 max-w-prose">Over all cups together. Whoever it concerns does not taste.</p>
        <Cautions said={told.map(({ words }) => words)} />
      </Fold>
      <PaperNotices kept={kept} number={number} refusal={findPutRefusal(refused)} seat={seat} />
      {seat?.onPaper && !seat.barred && !seat.aside ? (
        <PaperSeatForm panelId={panelId} seat={seat} />
      ) : (
        <SeatChoice panelId={panelId} seats={progress.seats} asked={seat?.number ?? null} />
      )}
    </Page>
  )
}
