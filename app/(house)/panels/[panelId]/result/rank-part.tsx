import type { NamelessResult } from '@/lib/tasks/result/read-shared'
import { fixed } from '@/lib/base/number-format'
import { CupMark, CupName } from '@/app/ui/cup-mark'
import { IntervalPlot } from '@/app/ui/interval-plot'
import { Fold, Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'

type Rank = NonNullable<NamelessResult['rank']>

interface Props {
  readonly result: NamelessResult
  readonly rank: Rank
}

/** In which order the cups are liked: mean places with how many put each where, then the pairs. @param open  on paper nothing folds */
export function RankSection({ result, rank, open = false }: Props & { readonly open?: boolean }) {
  if (rank.tasters === 0) return null
  const places = rank.cups.map((_, at) => at + 1)
  const nameOf = (letter: string) => result.cups.find((cup) => cup.letter === letter)?.name ?? ''
  return (
    <Section title="Which place each was given" aside={`Of ${rank.tasters} whole orders; place 1 is liked best`}>
      <IntervalPlot
        title="Mean place of each cup, and how many put it at each place"
        axis="Place; the bars are how many put it there"
        scale={{ low: 1, high: places.length, ticks: places }}
        rows={rank.cups.map(({ cup, meanPlace, places: counts }) => ({
          key: cup,
          letter: cup,
          label: `${cup} ${nameOf(cup)}`,
          value: meanPlace,
          low: null,
          high: null,
          counts,
        }))}
      />
      <Fold words="The same as a table, with what each cup is worth" open={open}>
        <PlacesTable result={result} rank={rank} />
      </Fold>
      <h3 className="mt-4 mb-1">Which of two was put above the other</h3>
      <PairsTable result={result} rank={rank} />
      <p className="mt-2 max-w-prose text-s text-soft">
        {rank.first?.differ
          ? `The exact sign test of each pair, after Holm over all ${rank.pairs.length}: it is told where that is 0.05 or less.`
          : 'Counts to look at: the first test does not say that the cups differ, so no pair is read.'}
      </p>
    </Section>
  )
}

const nth = (place: number) => ['1st', '2nd', '3rd', '4th', '5th', '6th'][place - 1] ?? String(place)

function PlacesTable({ result, rank }: Props) {
  const hasWorth = rank.cups.some(({ worth }) => worth !== null)
  return (
    <>
      <ScrollTable
        label="How many put each cup at each place"
        heads={['Cup', 'Mean place', ...rank.cups.map((_, at) => nth(at + 1)), 'Worth', 'Standard error']}
      >
        {rank.cups.map(({ cup, meanPlace, places, worth }) => [
          cup,
          <Cup key="name" result={result} letter={cup} />,
          fixed(meanPlace, 2),
          ...places,
          worth ? fixed(worth.value, 2) : 'none',
          worth ? fixed(worth.se, 2) : 'none',
        ])}
      </ScrollTable>
      <p className="mt-2 max-w-prose text-s text-soft">
        {hasWorth
          ? 'Worth after Plackett and Luce, on a log scale about the mean of these cups: the larger, the sooner a cup is chosen of those left. To look at: no claim rests on it.'
          : 'No finite worth fits these orders: a cup, or several, never stood below the others.'}
      </p>
    </>
  )
}

function PairsTable({ result, rank }: Props) {
  const p = (value: number | null) => (value === null ? 'not read' : value < 0.001 ? 'below 0.001' : fixed(value, 3))
  return (
    <ScrollTable label="Every pair of cups" heads={['More put', 'above', 'Tasters', 'p alone', 'p after Holm', 'Told']}>
      {rank.pairs.map(({ above, below, liked, likedOther, p: alone, pHolm, told }) => [
        above + below,
        <Cup key="above" result={result} letter={above} />,
        <Cup key="below" result={result} letter={below} />,
        `${liked} of ${liked + likedOther}`,
        p(alone),
        p(pHolm),
        told ? 'yes' : 'no',
      ])}
    </ScrollTable>
  )
}

function Cup({ result, letter }: { readonly result: NamelessResult; readonly letter: string }) {
  const cup = result.cups.find((one) => one.letter === letter)
  return cup ? <CupName {...cup} /> : <CupMark letter={letter} />
}

/** How the sentence was found. */
export function RankMethod({ result, rank }: Props) {
  return (
    <div className="grid max-w-prose gap-3">
      {'program' in result.found && <p>Sentences by version {result.found.program}.</p>}
      <p>
        First Friedman’s test asks whether the places of all cups together differ by more than chance, at five in a
        hundred (ISO 8587).{' '}
        {rank.first?.by === 'chi-squared' &&
          'With so many orders its exact distribution is too large to count here, so p is that of chi-squared.'}
        {rank.first?.by === 'exact' && 'Its p is exact: every order that every taster could have given is counted.'}
      </p>
      <p>
        Only where it says so are pairs read: of those who put both in order, how many put which above, by the exact
        two-sided sign test, after Holm over all pairs. That test of a pair asks of these two cups alone, so it holds
        whatever is true of the others. A cup stands out where it is told to be above every other.
      </p>
      <p>
        Two cups never share a place, and an order is whole or it does not count. Every cup came equally often at every
        place of tasting, as far as the seats allow. Only a person’s first answer counts, as far as names tell.
      </p>
      <p className="text-soft">
        The tasters of one café are not all guests. An order says which cup more people put above which, not how much
        they like any of them.
      </p>
    </div>
  )
}
