import type { ReactNode } from 'react'
import type { NamelessResult } from '@/lib/tasks/result/read-shared'
import { fixed } from '@/lib/base/number-format'
import { CupName } from '@/app/ui/cup-mark'
import { IntervalPlot } from '@/app/ui/interval-plot'
import { HUNDRED } from '@/app/ui/plot-scale'
import { Fold, Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'

type Choice = NonNullable<NamelessResult['choice']>
type Line = readonly [string, ...ReactNode[]]

const percent = (share: number) => 100 * share
const nameOf = (result: NamelessResult, letter: string) => result.cups.find((cup) => cup.letter === letter)?.name ?? ''

/** Each cup's share of those who preferred one: of two, one is what the other leaves. */
function sharesOf({ cup, other, preferred, preferredOther, share, interval }: Choice) {
  return [
    { letter: cup, count: preferred, share, interval },
    {
      letter: other,
      count: preferredOther,
      share: share === null ? null : 1 - share,
      interval: interval && ([1 - interval[1], 1 - interval[0]] as const),
    },
  ]
}

/** Which of two is preferred: shares with their exact interval, half marked. @param open  on paper nothing folds */
export function ChoiceSection({ result, open = false }: { result: NamelessResult; open?: boolean }) {
  const { choice } = result
  if (!choice) return null
  const rows = sharesOf(choice)
  const lines: Line[] = [
    ...rows.map(({ letter, count, share, interval }): Line => {
      const cup = result.cups.find((one) => one.letter === letter)
      return [
        letter,
        cup ? <CupName key="name" {...cup} /> : letter,
        count,
        share === null ? 'none' : `${fixed(percent(share), 1)} %`,
        interval ? `${fixed(percent(interval[0]), 1)} to ${fixed(percent(interval[1]), 1)} %` : 'none',
      ]
    }),
  ]
  if (choice.none !== null) lines.push(['none', 'No preference', choice.none, '', ''])
  return (
    <Section title="How many preferred each" aside="Shares of those who preferred one, with the exact 95 % interval">
      {choice.share !== null && (
        <IntervalPlot
          title="Share of those who preferred one, with its exact 95 % interval"
          axis="In a hundred; where neither is preferred each has 50"
          scale={HUNDRED}
          rows={rows.map(({ letter, share, interval }) => ({
            key: letter,
            letter,
            label: `${letter} ${nameOf(result, letter)}`,
            value: percent(share ?? 0),
            low: interval && percent(interval[0]),
            high: interval && percent(interval[1]),
          }))}
        />
      )}
      <Fold words="The same as a table" open={open}>
        <ScrollTable
          label="How many preferred each cup"
          heads={['Cup', 'Preferred by', 'Share', 'Exact 95 % interval']}
        >
          {lines}
        </ScrollTable>
      </Fold>
    </Section>
  )
}

/** How the sentence was found. */
export function ChoiceMethod({ result }: { result: NamelessResult }) {
  return (
    <div className="grid max-w-prose gap-3">
      {'program' in result.found && <p>Sentences by version {result.found.program}.</p>}
      <p>
        The sentence rests on the exact two-sided test of those who preferred one of the two, against a toss of a coin
        (ISO 5495), at five in a hundred, and on nothing else. The interval of the share is exact (Clopper and Pearson).
      </p>
      <p>
        Beside it, and no claim rests on it: where some had no preference, the trinomial test over all answers (Bian,
        McAleer and Wong 2011), and by how much one leads among all.
      </p>
      <p>
        Both orders were served equally often, so that which one comes first helps neither. Only a person’s first answer
        counts, as far as names tell.
      </p>
      <p className="text-soft">
        The tasters of one café are not all guests. A preference says which of the two more people chose, not how much
        they like it.
      </p>
    </div>
  )
}
