import { methods } from '@/lib/forms/method-choices'
import { ActForm, type FormAction } from '@/app/ui/act-form'
import { CheckField, HiddenField, SelectField, TextField, type Choice } from '@/app/ui/field'
import { Fold } from '@/app/ui/page-frame'

interface Props {
  readonly action: FormAction
  readonly lines: readonly Choice[]
  readonly sweeteners: readonly Choice[]
  readonly parts: readonly (Choice & { readonly kind: string })[]
  readonly hasBrew: boolean
}

/** One small form for each thing that can be varied; only one is sent. */
export function LadderForms({ action, lines, sweeteners, parts, hasBrew }: Props) {
  const swaps = parts.filter((part) => part.kind === 'sweetener')
  const form = { action, submit: 'Make these drafts', className: 'max-w-md' } as const
  return (
    <div className="grid gap-3">
      <Fold words="A dose: 20, 30, 40 g of one line" open>
        <ActForm id="ladder-dose" {...form}>
          <HiddenField name="vary" value="dose" />
          <SelectField name="line" label="Line" choices={lines} />
          <TextField
            name="levels"
            label="Levels"
            unit="g"
            help="With blanks between: 20 30 40. Comma or point for decimals."
          />
        </ActForm>
      </Fold>
      {hasBrew && (
        <Fold words="The brew ratio">
          <ActForm id="ladder-ratio" {...form} defaults={{ hold: 'dose' }}>
            <HiddenField name="vary" value="ratio" />
            <TextField name="levels" label="Levels, 1 to …" help="With blanks between: 8 9 10." />
            <SelectField
              name="hold"
              label="Held"
              choices={[
                { value: 'dose', words: 'the dose of coffee' },
                { value: 'beverage', words: 'the beverage in the glass' },
              ]}
            />
          </ActForm>
        </Fold>
      )}
      <Fold words="Another ingredient on one line, by the same mass: milk, plant drink, coffee">
        <ActForm id="ladder-part" {...form}>
          <HiddenField name="vary" value="part" />
          <SelectField name="line" label="Line" choices={lines} />
          <Checks name="parts" legend="Instead of it" choices={parts} />
        </ActForm>
      </Fold>
      {sweeteners.length > 0 && (
        <Fold words="Another sweetener, the sugar held and water rebalanced">
          <ActForm id="ladder-swap" {...form}>
            <HiddenField name="vary" value="swap" />
            <SelectField name="line" label="Sweetener" choices={sweeteners} />
            <Checks name="parts" legend="Instead of it" choices={swaps} />
          </ActForm>
        </Fold>
      )}
      {hasBrew && (
        <Fold words="The method">
          <ActForm id="ladder-method" {...form}>
            <HiddenField name="vary" value="method" />
            <Checks name="methods" legend="Methods" choices={methods.slice(0, -2)} />
          </ActForm>
        </Fold>
      )}
    </div>
  )
}

function Checks({ name, legend, choices }: { name: string; legend: string; choices: readonly Choice[] }) {
  return (
    <fieldset>
      <legend className="font-semibold">{legend}</legend>
      <div className="max-h-80 overflow-y-auto">
        {choices.map((choice) => (
          <CheckField key={choice.value} name={name} label={choice.words} value={choice.value} />
        ))}
      </div>
    </fieldset>
  )
}
