import { ActForm, type Draft, type FormAction } from '@/app/ui/act-form'
import { AreaField, ChoiceField, SelectField, TextField } from '@/app/ui/field'
import { localRules, Notice } from '@/app/ui/notice'
import { Section } from '@/app/ui/page-frame'
import { AspectsField, CupsField, PourLine } from '@/app/ui/plan-fields'
import type { PlanBasis } from '@/lib/tasks/read-plan-basis'

/** The whole plan on one page, in the order one thinks about it; what opening fixes is said where it is typed. */
export function PlanForm({
  id,
  basis,
  defaults,
  action,
  submit,
}: {
  readonly id: string
  readonly basis: PlanBasis
  readonly defaults: Draft
  readonly action: FormAction
  readonly submit: string
}) {
  const trials = basis.trials.map((trial) => ({ value: trial.id, words: `${trial.name} (trial ${trial.number})` }))
  return (
    <ActForm id={id} action={action} defaults={defaults} keep={id} submit={submit} className="group/plan gap-8">
      <Section title="What it is to find out">
        <div className="grid max-w-prose gap-5">
          <AreaField name="question" label="Your question" rows={2} help="For the house; tasters do not see it." />
          <TextField name="title" label="Title for the house" required />
          <TextField
            name="publicTitle"
            label="Title tasters see"
            required
            help="Tells nothing about the cups: no trial’s name, no ingredient that differs."
          />
        </div>
      </Section>
      <Section title="Cups" aside="two to six">
        <div className="grid max-w-prose gap-5">
          <CupsField trials={basis.trials} help={cupsHelp(basis.houseTrialId !== null)} />
          <SelectField
            name="duplicate"
            label="Serve one of them twice, hidden"
            none="No hidden duplicate"
            choices={trials}
            help="Two cups of one trial: how far their scores lie apart shows the panel’s noise. Nobody is told. Needs at least three different trials."
          />
          <AspectsField places={basis.mostAspects} />
        </div>
      </Section>
      <Section title="The comparison" aside="fixed before the first cup">
        <Comparison trials={trials} hasHouse={basis.houseTrialId !== null} />
      </Section>
      <Section title="Seats and pouring">
        <Pouring overagePercent={basis.overagePercent} />
      </Section>
    </ActForm>
  )
}

function cupsHelp(hasHouse: boolean): string {
  return hasHouse
    ? 'The house recipe stands first: with it among the cups, the panel can say whether anything is liked better.'
    : 'This recipe has no house recipe yet. Choose the trials to be compared.'
}

function Comparison({ trials, hasHouse }: { trials: { value: string; words: string }[]; hasHouse: boolean }) {
  return (
    <div className="grid max-w-prose gap-5">
      <ChoiceField
        name="primaryKind"
        label="What is compared"
        choices={[
          { value: 'all-pairs', words: 'Every pair of cups' },
          ...(hasHouse ? [{ value: 'against-house', words: 'Each cup with the house recipe' }] : []),
          { value: 'one-pair', words: 'One pair, named now' },
        ]}
        help="Fewer comparisons need fewer tasters for the same answer."
      />
      <div className="hidden gap-5 group-has-[input[value=one-pair]:checked]/plan:grid sm:grid-cols-2">
        <SelectField name="pairA" label="This trial" none="Choose" choices={trials} />
        <SelectField name="pairB" label="with this one" none="Choose" choices={trials} />
      </div>
      <div className="grid gap-5 sm:grid-cols-2">
        <TextField
          name="smallestDifference"
          label="Smallest difference that matters"
          unit="points"
          inputMode="decimal"
          help="On the nine-point scale. A difference below it would change nothing you do."
        />
        <TextField
          name="notWorseMargin"
          label="“Not worse” means at most"
          unit="points"
          inputMode="decimal"
          help="Below the house recipe. Leave empty unless you want to show that a change does no harm."
        />
      </div>
    </div>
  )
}

function Pouring({ overagePercent }: { overagePercent: number }) {
  return (
    <div className="grid max-w-prose gap-5">
      <div className="grid gap-5 sm:grid-cols-2">
        <TextField
          name="seatCount"
          label="Seats"
          unit="seats"
          inputMode="numeric"
          help="Two cups that differ by 1 point: about 46 tasters find it four times in five. A dozen is a first look."
        />
        <TextField
          name="sampleMl"
          label="Poured per cup"
          unit="ml"
          inputMode="numeric"
          help="30 to 60 ml is common for liking. The same in every cup, weighed, strained off the ice."
        />
      </div>
      <PourLine overagePercent={overagePercent} />
      <TextField
        name="seenThrough"
        label="What can be seen through"
        help="Colour, foam or a vessel that gives a cup away: “milk colour”. The panel is then called partly blind. Empty if nothing."
      />
      <Notice look="caution">
        Every seat drinks from every cup: the caffeine and sugar of all cups add up, most of all late in the day. Keep
        milk and plant drinks at 5 °C or below until they are poured. {localRules}
      </Notice>
    </div>
  )
}
