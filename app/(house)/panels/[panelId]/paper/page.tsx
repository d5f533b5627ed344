import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readPaperSeat } from '@/lib/tasks/pour/read-paper-seat'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { theWorld } from '@/lib/tasks/world'
import { Notice } from '@/app/ui/notice'
import { Page } from '@/app/ui/page-frame'
import { panelTrail } from '../../panel-words'
import { PaperSeatForm } from './paper-seat-form'
import { findPutRefusal, sayPut } from './say-put'
import { SeatChoice } from './seat-choice'

export const metadata: Metadata = { title: 'Scores from paper' }

interface Doors {
  readonly params: Promise<{ panelId: string }>
  readonly searchParams: Promise<{ seat?: string; kept?: string; refused?: string }>
}

export default async function PaperPage({ params, searchParams }: Doors) {
  const member = await requireMember('panel:run')
  const { panelId } = await params
  const { seat: typed, kept, refused } = await searchParams
  const notPut = findPutRefusal(refused)
  const progress = await readProgress(theWorld(), member, panelId)
  if (progress?.stage !== 'open') notFound()
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
      {kept && (
        <Notice live word="Kept">
          Seat {kept} is typed in. You can open it again to correct it while the panel is open.
        </Notice>
      )}
      {notPut && (
        <Notice look="stop" word={`Seat ${number} did not go to paper`} live>
          {sayPut[notPut]}
        </Notice>
      )}
      {seat?.onPaper && seat.typistOpenedList && (
        <Notice look="caution">
          You have opened a list of this panel, so a sheet tells you more than anybody should know before closing. Let
          somebody type it in who has opened neither.
        </Notice>
      )}
      {seat?.onPaper && !seat.barred ? (
        <PaperSeatForm panelId={panelId} seat={seat} />
      ) : (
        <SeatChoice panelId={panelId} seats={progress.seats} asked={seat?.number ?? null} />
      )}
    </Page>
  )
}
