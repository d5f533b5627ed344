import type { Instead } from '@/lib/tasks/trial/read-instead'
import { ActForm, type FormAction } from '@/app/ui/act-form'
import { CheckField } from '@/app/ui/field'
import { Notice } from '@/app/ui/notice'
import { Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'
import { figureWords, sayCostDifference, sayDifference, sayGraver, sayNotCompared, sayParts } from './say-instead'

interface Props {
  readonly proposal: Instead['proposals'][number]
  /** counted from one: the nearest */
  readonly place: number
  readonly line: Instead['line']
  readonly currency: string
  /** null for who may only read */
  readonly action: FormAction | null
}

/** One thing or blend that may stand in: what its labels bring before all else. */
export function Proposal({ proposal, place, line, currency, action }: Props) {
  const parts = sayParts(proposal)
  const notCompared = sayNotCompared(proposal)
  return (
    <Section title={`${place}. ${parts}`} aside={action ? null : 'Who may write recipes can make it a trial'}>
      <div className="grid gap-4">
        <Labels proposal={proposal} line={line} />
        <ScrollTable label={`How far ${parts} is from ${line.name}`} heads={['Per 100 g', 'Difference']}>
          {[
            ...(['fat', 'sugars', 'solids', 'protein'] as const).map(
              (figure) => [figure, figureWords[figure], sayDifference(proposal.differences[figure])] as const,
            ),
            ['cost', 'Cost of a glass', sayCostDifference(proposal.costDifference, currency)] as const,
          ]}
        </ScrollTable>
        {notCompared.length > 0 && <p>Not compared: {notCompared.join('; ')}.</p>}
        {action && (
          <ActForm
            id={`instead-${place}`}
            action={action}
            submit="Make it a trial"
            submitLook="plain"
            refused="Not made"
          >
            <input type="hidden" name="proposal" value={proposal.key} />
            {sayGraver(proposal).length > 0 && (
              <CheckField name="read" value="yes" label="I have read which allergens are new with it." />
            )}
          </ActForm>
        )}
      </div>
    </Section>
  )
}

function Labels({ proposal, line }: Pick<Props, 'proposal' | 'line'>) {
  const graver = sayGraver(proposal)
  return (
    <>
      {graver.length > 0 && (
        <Notice look="caution" word="Allergens">
          New against {line.name}: it {graver.join('; ')}.
        </Notice>
      )}
      {proposal.unread.length > 0 && (
        <Notice look="stop" word="Label not read">
          Nobody has read the label of {proposal.unread.join(', ')} for allergens. Until somebody has, no panel with it
          opens and no card is printed, and nothing made with it may be called free from anything.
        </Notice>
      )}
    </>
  )
}
