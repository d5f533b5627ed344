import type { Comparison } from '@/lib/tasks/trial/compare-trials'
import { currencyDigits, fixed } from '@/lib/base/number-format'

/** The difference between two trials, as a sentence and as a table. */
export function ChangeTable({ comparison, after }: { comparison: Comparison; after: string }) {
  const { sentence, changes, figures } = comparison
  const number = (value: number | null, unit: string) =>
    value === null ? 'not known' : `${fixed(value, currencyDigits(unit) ?? 2)} ${unit}`
  return (
    <div className="grid gap-4">
      <p className="max-w-prose">{sentence}</p>
      <div className="relative overflow-x-auto" role="region" aria-label="Differences" tabIndex={0}>
        <table className="w-full min-w-80">
          <thead>
            <tr className="border-b border-ink text-s">
              <th scope="col" className="py-1 pe-3 text-start">
                What
              </th>
              <th scope="col" className="py-1 ps-3 text-end">
                {comparison.with.name}
              </th>
              <th scope="col" className="py-1 ps-3 text-end">
                {after}
              </th>
            </tr>
          </thead>
          <tbody>
            {changes.map((change) => (
              <tr key={change.what} className="border-b border-line">
                <th scope="row" className="py-2 pe-3 text-start font-semibold">
                  {change.what}
                  {change.keeps && <span className="font-normal text-soft"> (to keep the balance)</span>}
                </th>
                <td className="py-2 ps-3 text-end">{change.before}</td>
                <td className="py-2 ps-3 text-end">{change.after}</td>
              </tr>
            ))}
            {figures.map((row) => (
              <tr key={row.what} className="border-b border-line text-soft">
                <th scope="row" className="py-1 pe-3 text-start font-normal">
                  {row.what}
                </th>
                <td className="py-1 ps-3 text-end whitespace-nowrap">{number(row.before, row.units.before)}</td>
                <td className="py-1 ps-3 text-end whitespace-nowrap">{number(row.after, row.units.after)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </div>
  )
}
