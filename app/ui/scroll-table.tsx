import type { ReactNode } from 'react'

/**
 * A table that scrolls inside itself on a narrow screen, by finger or keyboard. Each row is [key, first cell, …cells];
 * the first cell is the row's heading. It stands `relative`, for words that only a screen reader meets are placed absolutely:
 * beyond its edge they would widen the page instead of scrolling here.
 */
export function ScrollTable({
  label,
  heads,
  children,
}: {
  label: string
  heads: readonly string[]
  children: readonly (readonly [string, ...ReactNode[]])[]
}) {
  return (
    <div className="relative overflow-x-auto" role="region" aria-label={label} tabIndex={0}>
      <table className="w-full">
        <thead>
          <tr className="border-b border-ink text-s">
            {heads.map((head, place) => (
              <th
                key={head}
                scope="col"
                className={`py-1 pe-4 font-semibold whitespace-nowrap ${place === 0 ? 'text-start' : 'text-end'}`}
              >
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {children.map(([key, first, ...cells]) => (
            <tr key={key} className="border-b border-line align-baseline">
              <th scope="row" className="py-2 pe-4 text-start font-normal whitespace-nowrap print:whitespace-normal">
                {first}
              </th>
              {cells.map((cell, place) => (
                <td key={heads[place + 1]} className="py-2 pe-4 text-end whitespace-nowrap print:whitespace-normal">
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
