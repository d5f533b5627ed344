import Link from 'next/link'
import type { readBeside } from '@/lib/tasks/recipe/read-beside'
import { LIKING_NOTE, LikingLines } from '@/app/ui/blind-liking'
import { Notice } from '@/app/ui/notice'
import { Mark } from '@/app/ui/trial-tree'
import { SmallGlass, SmallGlassPatterns } from '../../../trials/[trialId]/small-glass'
import { besideRows } from './beside-rows'

type Found = NonNullable<Awaited<ReturnType<typeof readBeside>>>

const cell = 'px-2 py-1 text-start align-top print:px-1 print:py-0.5'
const head = 'sticky start-0 bg-raised print:static'

/** Five or six trials are printed in 8 pt, the least that is read at arm’s length: common practice, no source. */
const printed = (trials: number) =>
  trials > 4
    ? 'print:text-[8pt] print:leading-tight print:[&_*]:text-[8pt] print:[&_svg]:h-12 print:[&_td]:py-px print:[&_th]:py-px'
    : 'print:text-s'

/** The parts of the glass down, in working order; the trials across. Where they differ a sign and a word say so. */
export function BesideTable({ found, zone }: { found: Found; zone: string }) {
  const { trials, reach } = found
  return (
    <div>
      <SmallGlassPatterns />
      <div
        className={`relative overflow-x-auto rounded border border-line bg-raised print:overflow-visible ${printed(trials.length)}`}
        role="region"
        aria-label="Trials side by side"
        tabIndex={0}
      >
        <table className="w-full print:table-fixed">
          <thead>
            <tr className="border-b border-ink">
              <th scope="col" className={`${cell} ${head} print:w-[28mm]`}>
                Part
              </th>
              {trials.map(({ id, number, name, isHouse }) => (
                <th key={id} scope="col" className={`${cell} min-w-36 print:min-w-0`}>
                  <Link href={`/trials/${id}`} prefetch={false}>
                    {number}. {name}
                  </Link>{' '}
                  {isHouse && <Mark words="house recipe" strong />}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            <tr className="border-b border-line">
              <th scope="row" className={`${cell} ${head} font-normal`}>
                Glass, to one scale
              </th>
              {trials.map(({ id, glass }) => (
                <td key={id} className={cell}>
                  <SmallGlass glass={glass} reach={reach} />
                </td>
              ))}
            </tr>
            {besideRows(found, zone).map((row) => (
              <Row key={row.key} trials={trials} words={row.words} cells={row.cells} />
            ))}
            <tr>
              <th scope="row" className={`${cell} ${head} font-normal`}>
                Liking, blind
              </th>
              {trials.map(({ id, liking }) => (
                <td key={id} className={cell}>
                  <LikingLines liking={liking} zone={zone} />
                </td>
              ))}
            </tr>
          </tbody>
        </table>
      </div>
      <p className="mt-2 max-w-prose text-s text-soft">
        ≠ stands where the trials differ; — where a trial has none. {LIKING_NOTE}
      </p>
    </div>
  )
}

function Row({ trials, words, cells }: { trials: Found['trials']; words: string; cells: readonly string[] }) {
  const differs = new Set(cells).size > 1
  return (
    <tr className="border-b border-line print:break-inside-avoid">
      <th scope="row" className={`${cell} ${head} ${differs ? 'font-semibold' : 'font-normal'}`}>
        {words}
        {differs && (
          <>
            {' '}
            <span aria-hidden="true">≠</span>
            <span className="sr-only">, differs</span>
          </>
        )}
      </th>
      {trials.map(({ id }, place) => (
        <td key={id} className={`${cell} ${differs ? 'font-semibold' : ''}`}>
          {cells[place]}
        </td>
      ))}
    </tr>
  )
}

/** The sentences that stand beside each of these drinks everywhere, once, and of which they are said. */
export function BesideCautions({ found: { cautions, trials } }: { found: Found }) {
  if (cautions.length === 0) return null
  const named = (places: readonly number[]) => places.map((place) => trials[place]?.number ?? '?').join(', ')
  return (
    <Notice look="caution">
      <span className="mt-1 grid gap-1 print:block print:columns-2 print:text-[9pt] print:leading-snug">
        {cautions.map(({ words, of }) => (
          <span key={words} className="print:block print:break-inside-avoid">
            {of.length < trials.length && (
              <strong className="font-semibold">
                Trial{of.length > 1 && 's'} {named(of)}:{' '}
              </strong>
            )}
            {words}
          </span>
        ))}
      </span>
    </Notice>
  )
}
