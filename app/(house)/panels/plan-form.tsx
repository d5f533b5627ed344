import { ActForm, type Draft, type FormAction } from '@/app/ui/act-form'
import { AreaField, CheckField, ChoiceField, HiddenField, SelectField, TextField } from '@/app/ui/field'
import { localRules, Notice } from '@/app/ui/notice'
import { Section } from '@/app/ui/page-frame'
import { CupsField } from '@/app/ui/plan-fields'
import { PlanFigures, type SaidFirst } from '@/app/ui/plan-figures'
import { ChoicePlan } from './choice-plan'
import { DifferencePlan } from './difference-plan'
import { RankPlan } from './rank-plan'
import { QuestionsField } from '@/app/ui/question-fields'
import type { PlanBasis } from '@/lib/tasks/plan/read-plan-basis'

/** The whole plan on one page, in the order one thinks about it; what opening fixes is said where it is typed. */
export function PlanForm({
  id,
  basis,
  defaults,
  opened,
  figures,
  action,
  submit,
}: {
  readonly id: string
  readonly basis: PlanBasis
  readonly defaults: Draft
  /** of a draft that is changed: the mark of what it was opened with */
  readonly opened?: string
  /** what the plan comes to as it stands, in words */
  readonly figures: SaidFirst
  readonly action: FormAction
  readonly submit: string
}) {
  const trials = basis.trials.map((trial) => ({ value: trial.id, words: `${trial.name} (trial ${trial.number})` }))
  const hasHouse = basis.houseTrialId !== null
  return (
    <ActForm
      id={id}
      action={action}
      defaults={defaults}
      opened={opened}
      keep={id}
      submit={submit}
      className="group/plan gap-8"
    >
      <Section title="What it is to find out" aside="fixed before the first cup">
        <Aim hasHouse={hasHouse} />
      </Section>
      <Section
        title="Cups"
        aside={`two to ${basis.mostCups}; two where one of two is chosen or two are told apart, three to six where they are put in order`}
      >
        <div className="grid max-w-prose gap-5">
          <CupsField trials={basis.trials} help={cupsHelp(hasHouse)} />
          <div className={ofCups}>
            <SelectField
              name="duplicate"
              label="Serve one of them twice, hidden"
              none="No hidden duplicate"
              choices={trials}
              help="Two cups of one trial: how far their scores lie apart shows the panel’s noise. Nobody is told. Needs at least three different trials."
            />
          </div>
        </div>
      </Section>
      <div className={`grid gap-8 ${ofCups}`}>
        <Section title="What is asked of each cup" aside="fixed before the first cup">
          <div className="max-w-prose">
            <QuestionsField places={basis.mostAspects} />
          </div>
        </Section>
        <Section title="The comparison" aside="fixed before the first cup">
          <Comparison trials={trials} hasHouse={hasHouse} />
        </Section>
      </div>
      <div className={ofChoice}>
        <Section title="What is asked of the two" aside="fixed before the first cup">
          <ChoicePlan />
        </Section>
      </div>
      <div className={ofRank}>
        <Section title="What is asked of them together" aside="fixed before the first cup">
          <RankPlan />
        </Section>
      </div>
      <div className={ofDifference}>
        <Section title="What is asked of the two" aside="fixed before the first cup">
          <DifferencePlan trials={trials} />
        </Section>
      </div>
      <Section title="Seats and pouring">
        <Pouring basis={basis} />
      </Section>
      <Section title="What it comes to" aside="reckoned as you type">
        <PlanFigures recipeId={basis.recipe.id} first={figures} />
      </Section>
      <Section title="What tasters see">
        <Seen />
      </Section>
    </ActForm>
  )
}

/** Shown where each cup is scored, where one of two is chosen, where cups are put in order, where two are told apart. */
const ofCups =
  'group-has-[input[value=choice]:checked]/plan:hidden group-has-[input[value=rank]:checked]/plan:hidden group-has-[input[value=difference]:checked]/plan:hidden'
const ofChoice = 'hidden group-has-[input[value=choice]:checked]/plan:block'
const ofRank = 'hidden group-has-[input[value=rank]:checked]/plan:block'
const ofDifference = 'hidden group-has-[input[value=difference]:checked]/plan:block'

function Aim({ hasHouse }: { hasHouse: boolean }) {
  const yardstick = hasHouse ? 'the house recipe' : 'another one'
  return (
    <div className="grid max-w-prose gap-5">
      <ChoiceField
        name="kind"
        label="Tasters are asked"
        choices={[
          { value: 'liking', words: 'How they like each cup', help: 'Two cups or more, on the nine-point scale.' },
          {
            value: 'choice',
            words: 'Two cups: which one?',
            help: 'The shortest panel, one tap each. It says which more people prefer, not how much they like it.',
          },
          {
            value: 'rank',
            words: 'Three to six cups: in which order?',
            help: 'One tap a cup. It says which is put above which, not how much any is liked.',
          },
          {
            value: 'difference',
            words: 'Can they tell two apart?',
            help: 'Triangle, duo-trio and the like: whether it can be tasted at all, or so little that it does not matter.',
          },
        ]}
      />
      <div className={ofCups}>
        <ChoiceField
          name="aim"
          label="The panel asks"
          choices={[
            { value: 'best', words: 'Which is liked best?', help: 'Every cup is compared with every other.' },
            {
              value: 'better',
              words: `Is the new one liked better than ${yardstick}?`,
              help: 'Fewer comparisons, so fewer tasters for the same answer.',
            },
            {
              value: 'as-good',
              words: `Is it at least as good as ${yardstick}?`,
              help: 'For a cheaper milk or a quicker brew: it may be liked a little less, and you say how much.',
            },
          ]}
        />
      </div>
      <AreaField name="question" label="Your question" rows={2} help="In your own words; tasters do not see it." />
      <TextField name="title" label="Title for the house" required />
    </div>
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
      <p className="hidden group-has-[input[value=best]:checked]/plan:block">
        Every cup with every other: the question asks for the best of all.
      </p>
      <div className="grid gap-5 group-has-[input[value=best]:checked]/plan:hidden">
        {hasHouse ? (
          <ChoiceField
            name="primaryKind"
            label="What is compared"
            choices={[
              { value: 'against-house', words: 'Each other cup with the house recipe' },
              { value: 'one-pair', words: 'Two cups, named now' },
            ]}
          />
        ) : (
          <HiddenField name="primaryKind" value="one-pair" />
        )}
        <div
          className={`gap-5 sm:grid-cols-2 ${hasHouse ? 'hidden group-has-[input[value=one-pair]:checked]/plan:grid' : 'grid'}`}
        >
          <SelectField name="pairA" label="Is this one" none="Choose" choices={trials} />
          <SelectField name="pairB" label="compared with" none="Choose" choices={trials} />
        </div>
      </div>
      <div className="grid gap-5 sm:grid-cols-2">
        <div className="group-has-[input[value=as-good]:checked]/plan:hidden">
          <TextField
            name="smallestDifference"
            label="Smallest difference that matters"
            unit="points"
            inputMode="decimal"
            help="On the nine-point scale. A difference below it would change nothing you do."
          />
        </div>
        <div className="hidden group-has-[input[value=as-good]:checked]/plan:block">
          <TextField
            name="notWorseMargin"
            label="As good may be less liked by"
            unit="points"
            inputMode="decimal"
            help="On the nine-point scale: so little that you would pour it all the same."
          />
        </div>
      </div>
    </div>
  )
}

function Pouring({ basis }: { basis: PlanBasis }) {
  return (
    <div className="grid max-w-prose gap-5">
      <div className="grid gap-5 sm:grid-cols-2">
        <TextField
          name="seatCount"
          label="Seats"
          unit="seats"
          inputMode="numeric"
          help="How many people taste. More can be added while it is open."
        />
        <div className={ofCups}>
          <TextField
            name="cupsPerTaster"
            label="Cups for each taster"
            unit="cups"
            inputMode="numeric"
            help={`Empty: all of them, up to ${basis.mostCupsPerTaster}. Fewer than the panel has, and the cups are shared out evenly.`}
          />
        </div>
        <TextField
          name="sampleMl"
          label="Poured per cup"
          unit="ml"
          inputMode="numeric"
          help="30 to 60 ml is common for liking, 15 to 30 for telling two apart. The same in every cup, weighed, strained off the ice."
        />
      </div>
      <Notice look="caution">
        Whatever one taster drinks adds up, caffeine and sugar too, most of all late in the day. Keep milk and plant
        drinks at 5 °C or below until they are poured. {localRules}
      </Notice>
    </div>
  )
}

function Seen() {
  return (
    <div className="grid max-w-prose gap-5">
      <TextField
        name="publicTitle"
        label="Title tasters see"
        required
        help="Tells nothing about the cups: no trial’s name, no ingredient that differs."
      />
      <TextField
        name="seenThrough"
        label="What can be seen through"
        help="Colour, foam or a vessel that gives a cup away: “milk colour”. The panel is then called partly blind."
      />
      <CheckField
        name="nothingSeen"
        label="I looked at the cups side by side: nothing that can be seen gives one away."
        help="One of the two is needed before the panel opens; it may wait until the cups stand there."
      />
    </div>
  )
}
