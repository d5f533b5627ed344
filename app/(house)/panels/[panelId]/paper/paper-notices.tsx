import type { readPaperSeat } from '@/lib/tasks/pour/read-paper-seat'
import { Notice } from '@/app/ui/notice'
import { sayPut, type findPutRefusal } from './say-put'

/** What became of the sheet before, and what stands in the way of this one. */
export function PaperNotices({
  kept,
  number,
  refusal,
  seat,
}: {
  kept: string | undefined
  number: number
  refusal: ReturnType<typeof findPutRefusal>
  seat: Awaited<ReturnType<typeof readPaperSeat>>
}) {
  return (
    <>
      {kept && (
        <Notice live word="Kept">
          Seat {kept} is typed in. You can open it again to correct it while the panel is open.
        </Notice>
      )}
      {refusal && (
        <Notice look="stop" word={`Seat ${number} did not go to paper`} live>
          {sayPut[refusal]}
        </Notice>
      )}
      {seat?.onPaper && seat.typistOpenedList && (
        <Notice look="caution">
          You have opened a list of this panel, so a sheet tells you more than anybody should know before closing. Let
          somebody type it in who has opened neither.
        </Notice>
      )}
    </>
  )
}
