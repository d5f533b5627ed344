import type { ReactNode } from 'react'

/** One white sheet on the paper of the page. */
export function Sheet({ title, aside, children }: { title: string; aside?: ReactNode; children: ReactNode }) {
  const id = title.toLowerCase().replace(/[^a-z0-9]+/g, '-')
  return (
    <section aria-labelledby={id} className="rounded border border-line bg-raised px-4 py-2 print:break-inside-avoid">
      <div className="mb-1 flex flex-wrap items-baseline justify-between gap-x-4">
        <h2 id={id} className="text-m">
          {title}
        </h2>
        {aside && <div className="text-s text-soft">{aside}</div>}
      </div>
      {children}
    </section>
  )
}

/** What a picture says, as a table, one key away. Each row: its key, its heading, its cells. */
export function Twin({
  words,
  heads,
  rows,
}: {
  words: string
  heads: readonly string[]
  rows: readonly (readonly string[])[]
}) {
  return (
    <details className="screen-only mt-1 text-s">
      <summary className="inline-block min-h-6 py-1 text-soft underline underline-offset-4">{words}</summary>
      <table className="w-full">
        <thead>
          <tr className="border-b border-ink">
            {heads.map((head, place) => (
              <th key={head} scope="col" className={`py-1 ${place === 0 ? 'text-start' : 'ps-2 text-end'}`}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(([key, first, ...cells]) => (
            <tr key={key} className="border-b border-line align-baseline">
              <th scope="row" className="py-1 text-start font-normal">
                {first}
              </th>
              {cells.map((cell, place) => (
                <td key={heads[place + 1]} className="py-1 ps-2 text-end">
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  )
}
