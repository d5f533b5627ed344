'use client'

import type { ScaleSheet, ScaleStep } from '@/lib/drink/scale'
import { fixed } from '@/lib/base/number-format'
import type { Way } from '@/lib/forms/scale-steps'
import { Button } from '@/app/ui/button'
import { Column } from './column'
import { numberProblem, numberRead, shown } from './read-weight'
import { sayCorrected, sayOff, sayStepPresses, sayTooCoarse, sayUnread } from './say-scale'
import { ScaleField } from './scale-field'
import { StepFrame, type Turn } from './step-frame'

const grams = (value: number | null, decimals: number) =>
  value === null ? 'not known' : fixed(value, value < 100 ? decimals : decimals - 1)

/** One number in huge digits, what the scale should read; that number is typed, and a column fills into its band. */
export function BigStep({
  step,
  wanted,
  way,
  turn,
  typed,
  type,
}: {
  readonly step: ScaleStep
  /** what the scale should read, the way somebody weighs */
  readonly wanted: number | null
  readonly way: Way
  readonly turn: Turn
  readonly typed: string
  readonly type: (typed: string) => void
}) {
  const problem = numberProblem(typed, shown)
  return (
    <StepFrame turn={turn} canGoOn={problem === null} next={null}>
      <h2>{step.brew ? `Pour ${step.name}, brewed` : step.name}</h2>
      <p className="text-l">{way === 'tare' ? 'Tare, then add until the scale reads' : 'Add until the scale reads'}</p>
      <div className="flex items-center justify-between gap-2">
        <p className="text-[clamp(4rem,22vw,11rem)] leading-none font-bold tracking-tight">
          {grams(wanted, step.decimals)}
          {wanted !== null && <span className="text-xl font-normal"> g</span>}
        </p>
        <Column grams={numberRead(typed, shown)} wanted={wanted} tolerance={step.tolerance} decimals={step.decimals} />
      </div>
      {step.corrected && <p className="font-semibold text-caution">{sayCorrected(step.corrected)}</p>}
      {step.unread && <p className="font-semibold text-caution">{sayUnread(step.unread)}</p>}
      {step.presses && <p>{sayAdded(step, way)}</p>}
      {!step.unread && step.missing.length > 0 && <p className="text-caution">Missing: {step.missing.join('; ')}.</p>}
      {step.tooCoarse && <p className="font-semibold text-caution">{sayTooCoarse(step.tooCoarse)}</p>}
      <div className="max-w-64">
        <ScaleField
          label={
            wanted === null
              ? 'The scale reads'
              : `The scale reads (± ${fixed(step.tolerance, step.decimals)} g is right)`
          }
          unit="g"
          typed={typed}
          problem={problem}
          warning={sayOff(wanted, step, typed)}
          type={type}
        />
      </div>
    </StepFrame>
  )
}

/** The presses, and of how much where the scale runs on and shows another number. */
function sayAdded({ presses, add, decimals }: ScaleStep, way: Way): string | null {
  if (presses === null) return null
  const words = sayStepPresses(presses)
  return way === 'run' && add !== null
    ? `${fixed(add, decimals)} g: ${words}`
    : `${words.charAt(0).toUpperCase()}${words.slice(1)}`
}

/** What all of it should come to, and the way to keep it. */
export function Finished({
  sheet,
  way,
  keeps,
  done,
  back,
}: {
  readonly sheet: ScaleSheet
  readonly way: Way
  readonly keeps: boolean
  readonly done: () => void
  readonly back: () => void
}) {
  return (
    <div className="grid gap-4">
      <h2>{way === 'run' ? 'All in. The scale reads' : 'All in. Together that is'}</h2>
      <p className="text-[clamp(4.5rem,26vw,11rem)] leading-none font-bold">
        {grams(sheet.finalGrams, sheet.decimals)}
        {sheet.finalGrams !== null && <span className="text-xl font-normal"> g</span>}
      </p>
      <p className="text-l">± {fixed(sheet.tolerance, sheet.decimals)} g. Further off, and a step went wrong.</p>
      <div className="flex flex-wrap gap-3">
        <Button onClick={done}>{keeps ? 'Keep what was read off' : 'Done'}</Button>
        <Button look="quiet" onClick={back}>
          Back
        </Button>
      </div>
    </div>
  )
}
