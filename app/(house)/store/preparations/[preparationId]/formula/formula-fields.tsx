import { AreaField, TextField } from '@/app/ui/field'
import { Fold } from '@/app/ui/page-frame'
import type { PartChoice } from '@/app/ui/part-choice'
import { StepRows } from '@/app/ui/step-rows'
import { HotInfusion, HotSyrup } from '../../hot-cautions'
import { InputRows } from '../../input-rows'

/** What goes in, what is done, what it is cooked to, how it is kept: in the order of the bench. */
export function FormulaFields({ parts, kind }: { parts: readonly PartChoice[]; kind: string }) {
  const isSyrup = kind === 'syrup'
  const keepsBack = !isSyrup && kind !== 'other'
  return (
    <>
      {isSyrup && <HotSyrup />}
      {kind === 'infusion' && <HotInfusion />}
      <InputRows parts={parts} strained={kind === 'infusion'} />
      <Fold words="What is done, step by step">
        <StepRows time={{ field: 'minutes', unit: 'min' }} />
      </Fold>
      <fieldset className="grid gap-4">
        <legend className="mb-2 text-l font-semibold">What comes out</legend>
        <TextField
          name="target"
          label="Target mass, for these amounts"
          unit="g"
          inputMode="decimal"
          help="Batches for another mass are worked out from it."
        />
        {isSyrup && (
          <TextField
            name="brix"
            label="Target by refractometer"
            unit="°Bx"
            inputMode="decimal"
            help="Without a target mass it says at which weight to stop, where the sugar of all inputs is known."
          />
        )}
        {keepsBack && (
          <TextField
            name="retention"
            label={
              kind === 'infusion' ? 'Kept back by a gram of what is strained out' : 'Kept back by a gram of coffee'
            }
            unit="g"
            inputMode="decimal"
            help="From a batch of yours: what went in less what came out, through what was strained out."
          />
        )}
      </fieldset>
      <div className="grid gap-4 sm:grid-cols-2">
        <TextField name="storage" label="Kept at" unit="°C" inputMode="decimal" />
        <TextField
          name="keepsHours"
          label="Kept for"
          unit="h"
          inputMode="decimal"
          help="Local food-safety rules may ask for less."
        />
      </div>
      <AreaField name="note" label="Note" />
    </>
  )
}
