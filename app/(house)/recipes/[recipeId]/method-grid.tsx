import Link from 'next/link'
import type { GridCell, MethodGrid } from '@/lib/tasks/recipe/method-grid'
import { LIKING_NOTE, LikingLines } from '@/app/ui/blind-liking'
import { sayFigure } from '@/app/ui/figure'
import { sayDay } from '@/app/ui/moment'
import { Section } from '@/app/ui/page-frame'
import { Mark } from '@/app/ui/trial-tree'
import { SmallGlass, SmallGlassPatterns } from '../../trials/[trialId]/small-glass'

/** Methods down, cost levels across: the glass, what it costs, and how it was liked blind. */
export function MethodGridSection({ grid, zone }: { grid: MethodGrid; zone: string }) {
  const { levels, rows, reach } = grid
  if (rows.length === 0) return null
  return (
    <Section title="Methods and cost levels" aside="All glasses to one scale">
      <SmallGlassPatterns />
      <div
        className="relative overflow-x-auto rounded border border-line bg-raised"
        role="region"
        aria-label="Methods and cost levels"
        tabIndex={0}
      >
        <table className="w-full">
          <thead>
            <tr className="border-b border-ink text-s">
              <th scope="col" className="px-3 py-1 text-start">
                Method
              </th>
              {levels.map(({ id, name }) => (
                <th key={id ?? 'none'} scope="col" className="px-3 py-1 text-start">
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ method, cells }) => (
              <tr key={method} className="border-b border-line align-top last:border-b-0">
                <th scope="row" className="w-24 px-3 py-3 text-start font-semibold">
                  {method}
                </th>
                {cells.map((cell, place) => (
                  <td key={levels[place]?.id ?? 'none'} className="px-3 py-3">
                    {cell ? (
                      <Cell cell={cell} reach={reach} zone={zone} />
                    ) : (
                      <span className="text-soft">no trial</span>
                    )}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="mt-2 max-w-prose text-s text-soft">{LIKING_NOTE}</p>
    </Section>
  )
}

function Cell({ cell: { lead, others }, reach, zone }: { cell: GridCell; reach: number; zone: string }) {
  return (
    <div className="flex min-w-44 items-start gap-3">
      <span className="shrink-0 pt-1">
        <SmallGlass glass={lead.glass} reach={reach} />
      </span>
      <div>
        <Link href={`/trials/${lead.id}`} prefetch={false} className="inline-block font-semibold">
          {lead.name}
        </Link>
        <span className="block text-s text-soft">
          trial {lead.number} {lead.isHouse && <Mark words="house recipe" strong />}
        </span>
        <span className="block">
          {lead.cost.known ? `${sayFigure(lead.cost)} a glass` : 'cost of a glass not known'}
          <span className="text-s text-soft">
            {lead.cost.known && `, prices of ${lead.pricesOf ? sayDay(lead.pricesOf, zone) : 'today'}`}
          </span>
        </span>
        <LikingLines liking={lead.liking} zone={zone} />
        <Others others={others} />
      </div>
    </div>
  )
}

function Others({ others }: Pick<GridCell, 'others'>) {
  if (others.length === 0) return null
  return (
    <details className="mt-1">
      <summary className="inline-block min-h-6 py-1 text-s text-soft underline underline-offset-4">
        {others.length} more
      </summary>
      <ul>
        {others.map(({ id, number, name }) => (
          <li key={id}>
            <Link href={`/trials/${id}`} prefetch={false} className="inline-block py-1">
              {name}
            </Link>{' '}
            <span className="text-s text-soft">trial {number}</span>
          </li>
        ))}
      </ul>
    </details>
  )
}
