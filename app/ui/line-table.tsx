import Link from 'next/link'
import type { BuildFigures, BuildLine } from '@/lib/drink/trial'
import { fixed, plain } from '@/lib/base/number-format'
import { sayFigure } from './figure'
import { unitWords } from './unit-words'

interface Props {
  readonly lines: readonly BuildLine[]
  readonly figures: BuildFigures
  /** where one reads what could stand in for a line; null where there is no such page */
  readonly insteadAt: (line: BuildLine) => string | null
}

/** The lines of a build: target and, where it was weighed, what the scale showed. */
export function LineTable({ lines, figures, insteadAt }: Props) {
  const weighed = lines.some((line) => line.weighedGrams !== null)
  return (
    <div className="relative overflow-x-auto" role="region" aria-label="Lines of the build" tabIndex={0}>
      <table className="w-full min-w-80 text-start">
        <thead>
          <tr className="border-b border-ink text-s">
            <th scope="col" className="py-1 pe-3 text-start">
              What
            </th>
            <th scope="col" className="py-1 ps-3 text-end">
              Target
            </th>
            {weighed && (
              <th scope="col" className="py-1 ps-3 text-end">
                Weighed
              </th>
            )}
            <th scope="col" className="py-1 ps-3 text-end">
              Volume
            </th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line, place) => {
            const figure = figures.lines[place]
            const instead = insteadAt(line)
            return (
              <tr key={line.key} className="border-b border-line align-baseline">
                <th scope="row" className="py-2 pe-3 text-start font-normal">
                  {line.name}
                  {line.insteadOf !== null && (
                    <span className="block text-s text-soft">in place of {line.insteadOf}</span>
                  )}
                  {line.temperature !== null && <span className="text-soft"> at {plain(line.temperature, 1)} °C</span>}
                  {instead !== null && (
                    <span className="screen-only block text-s">
                      <Link href={instead} prefetch={false} className="inline-block min-h-6">
                        Instead of {line.name}
                      </Link>
                    </span>
                  )}
                </th>
                <td className="py-2 ps-3 text-end whitespace-nowrap">
                  {fixed(line.targetGrams, 1)} g
                  {line.typed && line.typed.unit !== 'g' && (
                    <span className="block text-s text-soft">
                      {plain(line.typed.amount, 3)} {unitWords(line.typed.unit)}
                      {line.typed.density !== null && ` at ${plain(line.typed.density, 3)} g/ml`}
                      {line.densityIsAssumed && line.typed.density === line.density && ', assumed'}
                    </span>
                  )}
                </td>
                {weighed && (
                  <td className="py-2 ps-3 text-end whitespace-nowrap">
                    {line.weighedGrams === null ? 'not weighed' : `${fixed(line.weighedGrams, 1)} g`}
                    {figure?.offTarget && !figure.offTarget.within && (
                      <span className="block text-s font-semibold text-caution">
                        {fixed(figure.offTarget.grams, 1)} g off
                      </span>
                    )}
                  </td>
                )}
                <td className="py-2 ps-3 text-end whitespace-nowrap text-soft">
                  {figure ? sayFigure(figure.volume, 0) : ''}
                </td>
              </tr>
            )
          })}
        </tbody>
      </table>
    </div>
  )
}
