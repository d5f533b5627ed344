import type { ReactNode } from 'react'
import Link from 'next/link'
import { fixed, money, plain } from '@/lib/base/number-format'
import type { Shelves } from '@/lib/tasks/store/read-shelves'
import { DemoMark } from '@/app/ui/demo-mark'
import { sayDay } from '@/app/ui/moment'
import { Empty, Fold, Section } from '@/app/ui/page-frame'
import { unitWords } from '@/app/ui/unit-words'
import { sayKind, sayPreparation } from './say-store'

interface Money {
  readonly currency: string
  readonly currencyDigits: number
}

interface Standing {
  readonly id: string
  readonly name: string
  readonly archived: boolean
  readonly isDemo: boolean
}

/** What is in use as a list; what was put aside folds away below it. */
function Shelf<Row extends Standing>({
  title,
  rows,
  empty,
  href,
  say,
}: {
  title: string
  rows: readonly Row[]
  empty: string
  href: string
  say: (row: Row) => ReactNode
}) {
  const [here, aside] = [rows.filter((row) => !row.archived), rows.filter((row) => row.archived)]
  const list = (shown: readonly Row[]) => (
    <ul className="divide-y divide-line">
      {shown.map((row) => (
        <li key={row.id} className="flex flex-wrap items-baseline justify-between gap-x-6 py-1">
          <span>
            <Link href={`${href}/${row.id}`} prefetch={false} className="inline-block py-2">
              {row.name}
            </Link>
            {row.isDemo && <DemoMark />}
          </span>
          <span className="text-soft">{say(row)}</span>
        </li>
      ))}
    </ul>
  )
  return (
    <Section title={title} aside={here.length > 0 ? `${here.length} in use` : undefined}>
      {here.length > 0 ? list(here) : <Empty words={empty} />}
      {aside.length > 0 && (
        <div className="mt-3">
          <Fold words={`Put aside: ${aside.length}`}>{list(aside)}</Fold>
        </div>
      )}
    </Section>
  )
}

export function IngredientShelf({ rows, cafe }: { rows: Shelves['ingredients']; cafe: Money }) {
  return (
    <Shelf
      title="Ingredients"
      rows={rows}
      empty="Nothing of this name."
      href="/store/ingredients"
      say={(row) => (
        <>
          {sayKind(row.kind)}
          {' · '}
          {row.price
            ? `${money(row.price.priceMinor, cafe.currency, cafe.currencyDigits)} for ${row.price.packTyped}\u00a0${unitWords(row.price.packUnit)}`
            : 'no price'}
          {!row.labelRead && <strong className="font-semibold text-caution"> · label not read</strong>}
        </>
      )}
    />
  )
}

export function PreparationShelf({ rows, zone }: { rows: Shelves['preparations']; zone: string }) {
  return (
    <Shelf
      title="Preparations"
      rows={rows}
      empty="No syrup or brew made in the house yet."
      href="/store/preparations"
      say={(row) => (
        <>
          {sayPreparation(row.kind)}
          {' · '}
          {row.latest
            ? `batch ${row.latest.number}${row.latest.discardAt ? `, discard ${sayDay(row.latest.discardAt, zone)}` : ''}`
            : 'no batch yet'}
          {row.overdue && <strong className="font-semibold text-stop"> · past its discard date</strong>}
        </>
      )}
    />
  )
}

export function VesselShelf({ rows, cafe }: { rows: Shelves['vessels']; cafe: Money }) {
  return (
    <Shelf
      title="Vessels"
      rows={rows}
      empty="No glass or takeaway vessel measured yet."
      href="/store/vessels"
      say={(row) => (
        <>
          {plain(row.brimMl, 1)} ml to the brim
          {row.fillMl !== null && `, ${fixed(row.fillMl, 0)} ml to the line`}
          {row.packMinor !== null && ` · ${money(row.packMinor, cafe.currency, cafe.currencyDigits)}`}
        </>
      )}
    />
  )
}
