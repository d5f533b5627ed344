import type { PlannedClaim } from '@/lib/tasks/result/planned-claims'
import type { PanelResult } from '@/lib/tasks/result/read-result'
import type { NamelessResult } from '@/lib/tasks/result/read-shared'
import { fixed } from '@/lib/base/number-format'
import { CupMark, CupName } from '@/app/ui/cup-mark'
import { IntervalPlot } from '@/app/ui/interval-plot'
import { aroundZero } from '@/app/ui/plot-scale'
import { Fold, Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'
import { ChoiceSection } from './choice-part'
import { DifferenceSection } from './difference-part'
import { RankSection } from './rank-part'

/**
 * What the panel was planned for: each difference with its joint interval, zero and margin marked, or how many preferred which.
 *
 * @param open  on paper nothing folds
 */
export function ClaimsSection({ result, open = false }: { result: NamelessResult; open?: boolean }) {
  const { claims, margin } = result
  if (result.rank) return <RankSection result={result} rank={result.rank} open={open} />
  if (result.choice) return <ChoiceSection result={result} open={open} />
  if (result.difference) return <DifferenceSection result={result} open={open} />
  if (claims.length === 0) return null
  const nameOf = (letter: string) => result.cups.find((cup) => cup.letter === letter)?.name ?? ''
  return (
    <Section
      title="How far apart"
      aside={
        claims.length > 1
          ? `The ${claims.length} intervals hold together, with a chance of 95 %`
          : 'The interval holds with a chance of 95 %'
      }
    >
      <IntervalPlot
        title="Difference in liking, first cup less second, with its joint 95 % interval"
        axis="Points of liking"
        scale={aroundZero(claims.flatMap(({ difference, interval }) => interval ?? [difference]))}
        margin={margin}
        rows={claims.map((one) => ({
          key: one.first + one.second,
          letter: one.first,
          label: `${one.first} ${nameOf(one.first)} less ${one.second} ${nameOf(one.second)}`,
          value: one.difference,
          low: one.interval?.[0] ?? null,
          high: one.interval?.[1] ?? null,
        }))}
      />
      <Fold words="The same as a table, and how many preferred each" open={open}>
        <ScrollTable
          label="Planned comparisons"
          heads={[
            'First',
            'Second',
            'Difference',
            'Joint 95 % interval',
            ...(margin === null ? [] : ['90 %, for the margin']),
            'Preferred',
            'What it says',
          ]}
        >
          {claims.map((one) => [
            one.first + one.second,
            <Cup key="first" result={result} letter={one.first} />,
            <Cup key="second" result={result} letter={one.second} />,
            fixed(one.difference, 2),
            sayInterval(one.interval),
            ...(margin === null ? [] : [sayInterval(one.marginInterval)]),
            sayPreferred(one),
            sayClaim(one),
          ])}
        </ScrollTable>
      </Fold>
    </Section>
  )
}

/** What was not planned: each pair taken alone, to look at. */
export function OtherPairs({ result }: { result: PanelResult }) {
  const planned = new Set(result.claims.flatMap(({ first, second }) => [first + second, second + first]))
  const others = result.liking?.pairs.filter(({ a, b }) => !planned.has(a + b)) ?? []
  if (others.length === 0) return null
  return (
    <Fold words="Pairs that were not the question">
      <ScrollTable
        label="Pairs that were not planned"
        heads={['First', 'Second', 'Difference', '95 %, alone', 'Preferred']}
      >
        {others.map((pair) => [
          pair.a + pair.b,
          <Cup key="first" result={result} letter={pair.a} />,
          <Cup key="second" result={result} letter={pair.b} />,
          fixed(pair.difference, 2),
          sayInterval(pair.robust.interval),
          `${pair.preferA} : ${pair.preferB} (${pair.tied} same)`,
        ])}
      </ScrollTable>
      <p className="mt-2 text-s text-soft">
        Each interval is taken alone: of many such pairs some will seem to differ by chance. They suggest what to ask
        next.
      </p>
    </Fold>
  )
}

function Cup({ result, letter }: { result: NamelessResult; letter: string }) {
  const cup = result.cups.find((one) => one.letter === letter)
  return cup ? <CupName {...cup} /> : <CupMark letter={letter} />
}

const sayInterval = (interval: readonly [number, number] | null) =>
  interval ? `${fixed(interval[0], 2)} to ${fixed(interval[1], 2)}` : 'none'

const sayPreferred = ({ preferFirst, preferSecond, tied }: PlannedClaim) =>
  `${preferFirst} of ${preferFirst + preferSecond + tied} the first, ${preferSecond} the second, ${tied} the same`

function sayClaim({ claim, byMargin }: PlannedClaim): string {
  const said = {
    better: 'first liked better',
    worse: 'second liked better',
    'cannot tell': 'cannot tell',
    'too few tasters': 'too few tasters',
  }[claim]
  if (byMargin === null) return said
  return `${said}; ${
    {
      'better by the margin': 'first better by the margin',
      'worse by the margin': 'second better by the margin',
      'as good': 'as good',
      'not worse': 'first not worse',
      'second not worse': 'second not worse',
      'cannot tell': 'margin: cannot tell',
    }[byMargin]
  }`
}
