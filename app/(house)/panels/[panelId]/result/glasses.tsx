import type { ResultGlass } from '@/lib/tasks/result/read-result-glasses'
import type { NamelessResult } from '@/lib/tasks/result/read-shared'
import { coins, fixed } from '@/lib/base/number-format'
import { BatchesPoured } from '@/app/ui/batches-poured'
import { CostPlot, type CostPoint } from '@/app/ui/cost-plot'
import { CupName } from '@/app/ui/cup-mark'
import { sayFigure } from '@/app/ui/figure'
import { Section } from '@/app/ui/page-frame'
import { sayLabels } from '@/app/ui/say-labels'
import { ScrollTable } from '@/app/ui/scroll-table'

/** What one weighs against each other: liking, and what a glass costs and holds. */
export function GlassesSection({
  result,
  glasses,
  currency,
}: {
  result: NamelessResult
  glasses: readonly ResultGlass[]
  currency: string
}) {
  const isLiking = result.kind === 'liking'
  const means = new Map(result.liking?.cups.map((one) => [one.cup, one]))
  const priced = result.cups.flatMap(({ letter, name, trialId }): CostPoint[] => {
    const cost = glasses.find((glass) => glass.trialId === trialId)?.cost
    const mean = means.get(letter)
    if (!cost?.known || !mean) return []
    const [low, high] = mean.robust.interval ?? [null, null]
    return [{ letter, name, cost: cost.value, liking: mean.estimate, low, high }]
  })
  return (
    <Section
      title={isLiking ? 'Liking beside the glass' : 'What a glass costs and holds'}
      aside="Cost with the prices of the day it was poured"
    >
      {differ(priced, currency) && <CostPlot points={priced} currency={currency} />}
      <ScrollTable
        label={`${isLiking ? 'Liking, cost' : 'Cost'}, sugars and allergens of each trial`}
        heads={['Cup', ...(isLiking ? ['Liking'] : []), 'A glass costs', 'Sugars', 'Its labels']}
      >
        {result.cups.map((cup) => {
          const glass = glasses.find(({ trialId }) => trialId === cup.trialId)
          const mean = means.get(cup.letter)
          return [
            cup.letter,
            <CupName key="name" {...cup} />,
            ...(isLiking ? [mean ? fixed(mean.estimate, 1) : 'not scored'] : []),
            glass ? sayFigure(glass.cost) : 'not known',
            glass ? sayFigure(glass.sugars, 0) : 'not known',
            <span key="labels">
              {glass
                ? sayLabels(glass.labels).map((line) => (
                    <span key={line} className="block">
                      {line}
                    </span>
                  ))
                : 'not known'}
            </span>,
          ]
        })}
      </ScrollTable>
      <BatchesPoured cups={result.cups} glasses={glasses} />
    </Section>
  )
}

/** Costs that read the same are no axis. */
const differ = (points: readonly CostPoint[], currency: string) =>
  new Set(points.map(({ cost }) => coins(cost, currency))).size > 1
