import type { Mats } from '@/lib/tasks/pour/read-mats'

/** A label for each cup: its code, underlined so that it is not read upside down, its seat and its place on the tray. */
export function CupLabels({ mats: { publicTitle, seats } }: { mats: Mats }) {
  return (
    <ul className="grid grid-cols-2 sm:grid-cols-3 print:grid-cols-3">
      {seats.flatMap(({ number, codes }) =>
        codes.map((code, at) => (
          <li
            key={`${number} ${code}`}
            className="grid break-inside-avoid content-center justify-items-center border border-dashed border-edge bg-raised p-3 text-center print:h-[32mm]"
          >
            <strong className="text-xl font-bold tracking-widest underline underline-offset-4 print:text-[26pt]">
              {code}
            </strong>
            <span>
              Seat {number}, cup {at + 1}
            </span>
            <span className="text-s text-soft">{publicTitle}</span>
          </li>
        )),
      )}
    </ul>
  )
}
