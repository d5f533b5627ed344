import type { PanelResult } from '@/lib/tasks/result/read-result'
import type { NamelessResult } from '@/lib/tasks/result/read-shared'
import { fixed } from '@/lib/base/number-format'
import { CupName } from '@/app/ui/cup-mark'
import { IntervalPlot } from '@/app/ui/interval-plot'
import { NINE } from '@/app/ui/plot-scale'
import { Fold, Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'

const nameOf = (result: NamelessResult, letter: string) => result.cups.find((cup) => cup.letter === letter)?.name ?? ''

/** @param open  on paper nothing folds */
export function MeansSection({ result, open = false }: { result: NamelessResult; open?: boolean }) {
  const { liking } = result
  if (!liking) return null
  const rows = [...liking.cups].sort((a, b) => b.estimate - a.estimate)
  return (
    <Section title="Mean liking" aside="1 dislike extremely, 9 like extremely">
      <IntervalPlot
        title="Liking of each cup, with its 95 % interval and its own scores below"
        axis="Liking, 1 to 9; bars: how many gave each"
        scale={NINE}
        rows={rows.map((row) => ({
          key: row.cup,
          letter: row.cup,
          label: `${row.cup} ${nameOf(result, row.cup)}`,
          value: row.estimate,
          low: row.robust.interval?.[0] ?? null,
          high: row.robust.interval?.[1] ?? null,
          counts: result.spread.find(({ letter }) => letter === row.cup)?.counts ?? [],
        }))}
      />
      {rows.some(({ robust }) => robust.interval === null) && (
        <p className="text-s text-soft">
          Where no interval is drawn, scores did not vary, or too few tasters gave one.
        </p>
      )}
      <Fold words="The same as a table" open={open}>
        <ScrollTable
          label="Mean liking of each cup"
          heads={['Cup', 'Tasters', 'Liking', '95 % interval', 'Plain mean', 'SD']}
        >
          {rows.map((row) => {
            const cup = result.cups.find((one) => one.letter === row.cup)
            return [
              row.cup,
              cup ? <CupName key="name" {...cup} /> : row.cup,
              row.n,
              fixed(row.estimate, 2),
              row.robust.interval
                ? `${fixed(row.robust.interval[0], 2)} to ${fixed(row.robust.interval[1], 2)}`
                : 'none',
              fixed(row.mean, 2),
              row.sd === null ? 'none' : fixed(row.sd, 2),
            ]
          })}
        </ScrollTable>
        <p className="mt-2 text-s text-soft">
          Liking is what the cup would score if every taster had it; where nobody missed a cup it is the plain mean.
          Whether two cups differ is read off their difference above: intervals of two cups may overlap and the cups
          still differ.
        </p>
      </Fold>
    </Section>
  )
}

const steps = [9, 8, 7, 6, 5, 4, 3, 2, 1] as const

const LONGEST_BAR = 80 // px

/** How often each step was chosen: a number in each cell, and a bar as long as the number. */
export function SpreadTable({ result }: { result: PanelResult }) {
  const most = Math.max(1, ...result.spread.flatMap((one) => one.counts))
  return (
    <ScrollTable
      label="How often each step was chosen"
      heads={['Step', ...result.spread.map((one) => `Cup ${one.letter}`)]}
    >
      {steps.map((step) => [
        String(step),
        step === 9 ? '9 like extremely' : step === 5 ? '5 neither' : step === 1 ? '1 dislike extremely' : String(step),
        ...result.spread.map((one) => {
          const count = one.counts[step - 1] ?? 0
          return (
            <span key={one.letter} className="flex flex-row-reverse items-center gap-2">
              <span className="w-6 text-end">{count}</span>
              {count > 0 && (
                <svg
                  aria-hidden="true"
                  className="h-3 border border-ink bg-line print:bg-soft"
                  width={Math.round((count / most) * LONGEST_BAR)}
                />
              )}
            </span>
          )
        }),
      ])}
    </ScrollTable>
  )
}
