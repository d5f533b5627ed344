import type { SeatProgress } from '@/lib/tasks/pour/read-progress'
import { Section } from '@/app/ui/page-frame'
import { SeatTable } from '@/app/ui/seat-table'

/** Seats that have not finished, and seats that are set aside: what becomes of each when the panel closes. */
export function OpenEnds({ seats, zone }: { seats: readonly SeatProgress[]; zone: string }) {
  const unfinished = seats.filter(({ state }) => state === 'tasting' || state === 'left' || state === 'barred')
  const aside = seats.filter(({ state }) => state === 'set-aside')
  return (
    <>
      {unfinished.length > 0 && (
        <Section title="Unfinished seats">
          <SeatTable seats={unfinished} zone={zone} />
          <p className="mt-3 max-w-prose text-soft">
            What they scored counts; the cups they did not score are counted as missing and named in the result.
            {unfinished.some((seat) => seat.barred !== null) &&
              ' Only what was scored before the serving list was opened counts; the rest is set apart.'}
          </p>
        </Section>
      )}
      {aside.length > 0 && (
        <Section title="Seats set aside">
          <SeatTable seats={aside} zone={zone} />
          <p className="mt-3 max-w-prose text-soft">
            What the panel claims is read without them, and the reading with them stands beside it. Closing settles
            that: a seat that shall count is taken back in before.
          </p>
        </Section>
      )}
    </>
  )
}
