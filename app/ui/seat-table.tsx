import { Moment } from './moment'

/** Where a seat stands, as the progress of a panel says it. */
export type SeatStanding = 'free' | 'tasting' | 'finished' | 'left' | 'barred' | 'set-aside'

export interface WatchedSeat {
  readonly number: number
  readonly name: string | null
  readonly scored: number
  readonly skipped: number
  readonly poured: number
  readonly cups: number
  readonly state: SeatStanding
  readonly barred: 'opened-serving-list' | 'opened-both-lists' | null
  readonly aside: string | null
  readonly onPaper: boolean
  /** text where it came by the wire */
  readonly movedAt: Date | string | null
  /** scores on cups that nobody ticked as poured and no phone confirmed; null where nobody ticks */
  readonly unpoured: number | null
  readonly added: boolean
  readonly repeatOf: number | null
}

const say = {
  free: 'free',
  tasting: 'tasting',
  finished: 'finished',
  left: 'left early',
  barred: 'takes no more scores',
  'set-aside': 'set aside',
} as const

const sayBarred = {
  'opened-serving-list': 'its taster has opened the serving list',
  'opened-both-lists': 'its taster has opened both lists',
} as const

/** One line a seat, in words; the count stands where the eye runs down. */
export function SeatTable({
  seats,
  zone,
  actAt,
}: {
  readonly seats: readonly WatchedSeat[]
  readonly zone: string
  /** the address, up to the number, where something is done about a seat; without it nothing is */
  readonly actAt?: string | undefined
}) {
  return (
    <table className="w-full max-w-3xl">
      <caption className="sr-only">Cups scored at each seat</caption>
      <thead>
        <tr className="border-b border-line text-s text-soft">
          <th className="w-12 py-2 pe-3 text-end font-normal">Seat</th>
          <th className="py-2 pe-3 text-start font-normal">Taster</th>
          <th className="py-2 pe-3 text-end font-normal">Scored</th>
          <th className="py-2 text-start font-normal">Now</th>
        </tr>
      </thead>
      <tbody>
        {seats.map((seat) => (
          <tr
            key={seat.number}
            className={`border-b border-line align-baseline ${seat.state === 'free' ? 'text-soft' : ''}`}
          >
            <th scope="row" className="pe-3 text-end font-semibold">
              {actAt === undefined ? (
                seat.number
              ) : (
                <a
                  href={`${actAt}${seat.number}#seat`}
                  className="inline-flex min-h-11 min-w-11 items-center justify-end text-accent underline"
                >
                  <span className="sr-only">Seat </span>
                  {seat.number}
                </a>
              )}
            </th>
            <td className="py-2 pe-3 break-words">{seat.name ?? '–'}</td>
            <td className="py-2 pe-3 text-end whitespace-nowrap">
              {seat.scored} of {seat.cups}
            </td>
            <td className="py-2">
              <span className={seat.state === 'finished' ? 'font-semibold text-accent' : ''}>{say[seat.state]}</span>
              <Remarks seat={seat} zone={zone} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Remarks({ seat, zone }: { readonly seat: WatchedSeat; readonly zone: string }) {
  const remarks = [
    seat.skipped > 0 ? `${seat.skipped} skipped` : '',
    seat.onPaper ? 'on paper' : '',
    seat.added ? 'added' : '',
    seat.poured < seat.cups && seat.state !== 'finished' && seat.poured > 0 ? `${seat.poured} poured` : '',
  ].filter((remark) => remark !== '')
  return (
    <>
      {remarks.length > 0 && <span className="text-s text-soft">, {remarks.join(', ')}</span>}
      {seat.movedAt !== null && (
        <span className="block text-s text-caution">
          went on on another phone, <Moment at={new Date(seat.movedAt)} zone={zone} />
        </span>
      )}
      {(seat.unpoured ?? 0) > 0 && <span className="block text-s text-caution">{sayUnpoured(seat.unpoured ?? 0)}</span>}
      {seat.barred !== null && <span className="block text-s text-caution">{sayBarred[seat.barred]}</span>}
      {seat.aside !== null && <span className="block text-s text-caution">“{seat.aside}”</span>}
      {seat.repeatOf !== null && (
        <span className="block text-s text-caution">perhaps the taster of seat {seat.repeatOf} again</span>
      )}
    </>
  )
}

function sayUnpoured(scores: number): string {
  return `${scores === 1 ? '1 score stands on a cup' : `${scores} scores stand on cups`} that nobody ticked as poured`
}
