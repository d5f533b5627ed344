import type { PanelResult } from '@/lib/tasks/result/read-result'
import { chance, fixed } from '@/lib/base/number-format'
import { CupMark, CupName } from '@/app/ui/cup-mark'
import { LazyPlot } from '@/app/ui/lazy-plot'
import { Fold, Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'

const nameOf = (result: PanelResult, letter: string) => result.cups.find((cup) => cup.letter === letter)?.name ?? ''

export function MeansSection({ result }: { result: PanelResult }) {
  const { liking } = result
  if (!liking) return null
  const rows = [...liking.cups].sort((a, b) => b.mean - a.mean)
  return (
    <Section title="Mean liking" aside="1 dislike extremely, 9 like extremely">
      <LazyPlot
        title="Mean liking of each cup, with its 95 % interval"
        axis="liking, 1 to 9"
        domain={[1, 9]}
        ticks={[1, 2, 3, 4, 5, 6, 7, 8, 9]}
        rows={rows.map((row) => ({
          key: row.cup,
          letter: row.cup,
          label: `${row.cup} ${nameOf(result, row.cup)}`,
          value: row.mean,
          low: row.meanInterval?.[0] ?? null,
          high: row.meanInterval?.[1] ?? null,
        }))}
      />
      <Fold words="The same as a table">
        <ScrollTable label="Mean liking of each cup" heads={['Cup', 'Tasters', 'Mean', '95 % interval', 'SD', 'Group']}>
          {rows.map((row) => {
            const cup = result.cups.find((one) => one.letter === row.cup)
            return [
              row.cup,
              cup ? <CupName key="name" {...cup} /> : row.cup,
              row.n,
              fixed(row.mean, 2),
              row.meanInterval ? `${fixed(row.meanInterval[0], 2)} to ${fixed(row.meanInterval[1], 2)}` : 'none',
              row.sd === null ? 'none' : fixed(row.sd, 2),
              liking.groups[row.cup] ?? '',
            ]
          })}
        </ScrollTable>
        <p className="mt-2 text-s text-soft">
          Cups that share a letter of the last column are not told apart. That does not make them equal.
        </p>
      </Fold>
    </Section>
  )
}

export function PairsSection({ result }: { result: PanelResult }) {
  const { pairs, liking } = result
  if (pairs.length === 0) return null
  const reach = Math.max(
    1,
    ...pairs.flatMap((pair) => [Math.abs(pair.interval?.[0] ?? 0), Math.abs(pair.interval?.[1] ?? 0)]),
  )
  const most = Math.ceil(reach)
  const ticks = Array.from({ length: 2 * most + 1 }, (_, place) => place - most)
  const margin = liking?.margin?.margin
  return (
    <Section title="Cup against cup">
      <LazyPlot
        title="Difference in liking, first cup less second, with its 95 % interval"
        axis="points of liking"
        domain={[-most, most]}
        ticks={ticks.length > 11 ? ticks.filter((tick) => tick % 2 === 0) : ticks}
        lines={[
          { at: 0, words: 'no difference' },
          ...(margin
            ? [
                { at: -margin, words: 'margin' },
                { at: margin, words: 'margin' },
              ]
            : []),
        ]}
        rows={pairs.flatMap((pair) =>
          pair.difference === null
            ? []
            : [
                {
                  key: pair.first + pair.second,
                  letter: pair.first,
                  label: `${pair.first} less ${pair.second}`,
                  value: pair.difference,
                  low: pair.interval?.[0] ?? null,
                  high: pair.interval?.[1] ?? null,
                },
              ],
        )}
      />
      <Fold words="The same as a table, and how many preferred each">
        <ScrollTable
          label="Differences between cups"
          heads={['First', 'Second', 'Difference', '95 % interval', 'Adjusted p', 'Preferred', 'Told apart']}
        >
          {pairs.map((pair) => [
            pair.first + pair.second,
            <span key="first">
              <CupMark letter={pair.first} /> {pair.first}
            </span>,
            <span key="second">
              <CupMark letter={pair.second} /> {pair.second}
            </span>,
            pair.difference === null ? 'none' : fixed(pair.difference, 2),
            pair.interval ? `${fixed(pair.interval[0], 2)} to ${fixed(pair.interval[1], 2)}` : 'none',
            pair.p === null ? 'none' : chance(pair.p),
            `${pair.preferFirst} : ${pair.preferSecond} (${pair.tied} same)`,
            pair.told === 'cannot tell'
              ? 'cannot tell'
              : `${pair.told === 'better' ? pair.first : pair.second} liked better`,
          ])}
        </ScrollTable>
        <p className="mt-2 text-s text-soft">
          p over all pairs, after Holm. “Preferred” counts tasters who scored one cup above the other.
        </p>
      </Fold>
    </Section>
  )
}

const steps = [9, 8, 7, 6, 5, 4, 3, 2, 1] as const

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
              <span
                aria-hidden="true"
                className="h-3 border border-ink bg-line print:bg-soft"
                style={{ width: `${(count / most) * 5}rem`, visibility: count ? 'visible' : 'hidden' }}
              />
            </span>
          )
        }),
      ])}
    </ScrollTable>
  )
}
