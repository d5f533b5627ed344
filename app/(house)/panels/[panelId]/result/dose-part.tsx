import { fixed, plain } from '@/lib/base/number-format'
import type { DoseResult } from '@/lib/tasks/result/read-dose'
import type { ResultGlass } from '@/lib/tasks/result/read-result-glasses'
import type { PanelResult } from '@/lib/tasks/result/read-result'
import { CupName } from '@/app/ui/cup-mark'
import { sayFigure } from '@/app/ui/figure'
import { Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'
import { sayDose } from './say-dose'

/** Cups that differ in the amount of one thing: which amount is liked best, if that can be said, and what each costs. */
export function DoseSection({
  dose,
  result,
  glasses,
  here,
}: {
  dose: DoseResult | null
  result: PanelResult
  glasses: readonly ResultGlass[]
  here: string
}) {
  if (!dose) return null
  const { answer, name } = dose
  return (
    <Section title={`How much ${name}?`} aside="It suggests; the planned comparison is the liking above">
      <p className="max-w-prose">{sayDose(dose)}</p>
      <ScrollTable label={`Liking of each amount of ${name}`} heads={['Cup', 'In a glass', 'Liking', 'A glass costs']}>
        {dose.cups.map(({ letter, grams }) => {
          const cup = result.cups.find((one) => one.letter === letter)
          const mean = result.liking?.cups.find((one) => one.cup === letter)
          const glass = glasses.find(({ trialId }) => trialId === cup?.trialId)
          return [
            letter,
            cup ? <CupName key="name" {...cup} /> : letter,
            `${plain(grams, 1)} g`,
            mean ? fixed(mean.estimate, 1) : 'not scored',
            glass ? sayFigure(glass.cost) : 'not known',
          ]
        })}
      </ScrollTable>
      <p className="mt-2 text-s text-soft">
        The cups are the same but for this. A parabola over the amount, tasters about their own means;{' '}
        {answer.counts.tasters} tasters, {answer.counts.scores} scores. Nothing is said beyond the amounts tried.{' '}
        <a href={`${here}/export/dose`} download>
          The amounts and scores as CSV
        </a>
        ; <code className="break-words">npm run -s stats -- dose sipwright-dose.csv</code> computes this.
      </p>
    </Section>
  )
}
