import type { Mats } from '@/lib/tasks/pour/read-mats'

/** One tray: circles in the order of tasting, from left to right as its taster sits. */
export function TrayMat({ publicTitle, seat }: { publicTitle: string; seat: Mats['seats'][number] }) {
  // a row for each set, so that what is compared stands side by side
  const rows = seat.sets.length > 0 ? seat.sets : [seat.codes]
  return (
    <article
      aria-label={`Mat of seat ${seat.number}`}
      className="grid gap-6 break-after-page border border-edge bg-raised p-4 last:break-after-auto print:h-[160mm] print:content-between print:border-0 print:p-0"
    >
      <h2 className="text-l font-bold">
        {publicTitle}, seat {seat.number}
      </h2>
      {rows.map((codes) => (
        <ol
          key={codes.join('')}
          className="grid grid-cols-2 gap-4 sm:grid-cols-[repeat(auto-fit,minmax(7rem,1fr))] print:grid-flow-col print:auto-cols-fr print:grid-cols-none print:gap-[4mm]"
        >
          {codes.map((code) => (
            <li
              key={code}
              className={`mx-auto flex aspect-square w-full max-w-40 flex-col items-center justify-center rounded-full border-2 border-ink ${rows.length > 1 ? 'print:max-w-[38mm]' : 'print:max-w-[70mm]'}`}
            >
              <span className="text-soft print:text-[18pt]">{seat.codes.indexOf(code) + 1}</span>
              <strong
                className={`text-xl font-bold tracking-widest underline underline-offset-4 ${rows.length > 1 ? 'print:text-[22pt]' : 'print:text-[32pt]'}`}
              >
                {code}
              </strong>
            </li>
          ))}
        </ol>
      ))}
      <p className="border-t-4 border-ink pt-2 text-center">
        <strong className="font-semibold">This edge towards the taster.</strong> Taste from 1 on. You may stop at any
        time, and spit.
      </p>
    </article>
  )
}
