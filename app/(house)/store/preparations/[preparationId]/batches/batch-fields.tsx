'use client'

import { AreaField, HiddenField, TextField } from '@/app/ui/field'
import { Fold } from '@/app/ui/page-frame'
import type { PartChoice } from '@/app/ui/part-choice'
import { StepRows } from '@/app/ui/step-rows'
import { HotInfusion, HotSyrup } from '../../hot-cautions'
import { InputRows } from '../../input-rows'

/** What went in, what was done, what came out: in the order of the bench. */
export function BatchFields({
  parts,
  kind,
  formulaId,
  atBar = false,
}: {
  parts: readonly PartChoice[]
  kind: string
  /** the version it was begun from */
  formulaId?: string | undefined
  /** recorded behind the bar, where nothing is added later */
  atBar?: boolean
}) {
  const hot = kind === 'syrup'
  return (
    <>
      {formulaId !== undefined && <HiddenField name="formulaId" value={formulaId} />}
      {hot && <HotSyrup />}
      {kind === 'infusion' && <HotInfusion />}
      <InputRows parts={parts} strained={kind === 'infusion'} />
      <Fold words="What was done, step by step">
        <StepRows time={{ field: 'minutes', unit: 'min' }} />
      </Fold>
      <fieldset className="grid gap-4">
        <legend className="mb-2 text-l font-semibold">What came out</legend>
        <TextField
          name="output"
          label="Mass that came out, weighed"
          unit="g"
          inputMode="decimal"
          required={atBar}
          help={`Tare the pot before, weigh after. ${atBar ? 'It cannot be added here later.' : 'While this is empty nothing can be costed from the batch.'}`}
        />
        {hot || kind === 'infusion' ? (
          <TextField
            name="brix"
            label="By refractometer, if measured"
            unit="°Bx"
            inputMode="decimal"
            help={
              hot
                ? 'Else it follows from the sugar that went in and the mass that came out.'
                : 'Else only the sugar of what stays in is counted.'
            }
          />
        ) : (
          <TextField name="solids" label="Dissolved solids, if measured" unit="%" inputMode="decimal" />
        )}
        <TextField name="density" label="Density, if measured" unit="g/ml" inputMode="decimal" />
      </fieldset>
      <div className="grid gap-4 sm:grid-cols-2">
        <TextField name="madeAt" label="Made" type="datetime-local" />
        <TextField name="discardAt" label="Discard" type="datetime-local" help="Empty: after the house’s own limit." />
      </div>
      <AreaField name="note" label="Note" />
    </>
  )
}
