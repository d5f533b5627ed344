import { ActButton } from '@/app/ui/act-button'
import { ButtonLink } from '@/app/ui/button'
import { Empty, Section } from '@/app/ui/page-frame'
import type { SeatProgress } from '@/lib/tasks/pour/read-progress'
import { putOnPaperAction } from './actions'

/** Seats on paper first; any other has to be put on paper before its sheet is typed in. */
export function SeatChoice({
  panelId,
  seats,
  asked,
}: {
  panelId: string
  seats: readonly SeatProgress[]
  asked: number | null
}) {
  const onPaper = seats.filter((seat) => seat.onPaper)
  const others = seats.filter((seat) => !seat.onPaper && seat.state !== 'finished' && seat.state !== 'set-aside')
  return (
    <>
      <Section title="Seats on paper">
        {onPaper.length === 0 ? (
          <Empty words="No seat answers on paper yet. Put one on paper below; its tray and its codes stay as they are." />
        ) : (
          <ul className="divide-y divide-line">
            {onPaper.map((seat) => (
              <li key={seat.number} className="flex flex-wrap items-center justify-between gap-3 py-2">
                <span>
                  <strong className="font-semibold">Seat {seat.number}</strong>
                  {seat.name && `, ${seat.name}`}
                  <span className="text-soft">
                    : {seat.scored + seat.skipped} of {seat.cups} cups answered
                  </span>
                </span>
                <ButtonLink look="plain" href={`/panels/${panelId}/paper?seat=${seat.number}`}>
                  Type in
                </ButtonLink>
              </li>
            ))}
          </ul>
        )}
      </Section>
      <Section title="Put a seat on paper">
        <ul className="flex flex-wrap gap-2">
          {others.map((seat) => (
            <li key={seat.number}>
              <ActButton
                look={seat.number === asked ? 'main' : 'plain'}
                action={putOnPaperAction.bind(null, panelId, seat.number)}
                words={seat.name ? `Seat ${seat.number}, ${seat.name}` : `Seat ${seat.number}`}
              />
            </li>
          ))}
        </ul>
      </Section>
    </>
  )
}
