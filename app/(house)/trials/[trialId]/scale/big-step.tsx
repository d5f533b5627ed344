'use client'

import type { ScaleSheet, ScaleStep } from '@/lib/drink/scale'
import { fixed } from '@/lib/base/number-format'
import { Button } from '@/app/ui/button'
import { sayBrewing } from '../say-brewing'
import { sayOff, sayTooCoarse } from './say-scale'
import { weightProblem } from './kept-weights'

const grams = (value: number | null) => (value === null ? 'not known' : fixed(value, value < 100 ? 1 : 0))

/** The amount to add in huge digits; the lower half of the screen goes on. */
export function BigStep({
  step,
  place,
  of,
  weight,
  weigh,
  next,
  back,
}: {
  step: ScaleStep
  place: number
  of: number
  weight: string
  weigh: (typed: string) => void
  next: () => void
  back: (() => void) | null
}) {
  const problem = weightProblem(weight)
  const how = step.brew ? sayBrewing(step.brew) : ''
  return (
    <div className="grid min-h-[70dvh] grid-rows-[auto_1fr] gap-3">
      <div>
        <p className="text-soft">
          Step {place + 1} of {of}
          {step.brew &&
            `: brew ${grams(step.brew.dose)} g (± ${fixed(step.brew.tolerance, 1)} g) of dry coffee${how && ` (${how})`}, then pour`}
        </p>
        <h2>{step.name}</h2>
        <p className="text-[clamp(4.5rem,26vw,11rem)] leading-none font-bold tracking-tight">
          {grams(step.add)}
          {step.add !== null && <span className="text-xl font-normal"> g</span>}
        </p>
        {step.missing.length > 0 && <p className="text-caution">Missing: {step.missing.join('; ')}.</p>}
        {step.tooCoarse && <p className="font-semibold text-caution">{sayTooCoarse(step.tooCoarse)}</p>}
        <p className="text-l">
          The scale then shows <strong>{grams(step.running)} g</strong>, ± {fixed(step.tolerance, 1)} g for this step.
        </p>
        <label className="mt-3 flex items-center gap-3">
          <span>Added, if you read it</span>
          <input
            inputMode="decimal"
            value={weight}
            onChange={(event) => weigh(event.target.value)}
            aria-invalid={problem !== null || undefined}
            aria-describedby="weight-problem"
            className="min-h-11 w-28 rounded border border-edge bg-raised px-3 text-end"
          />
          <span aria-hidden="true">g</span>
        </label>
        <p id="weight-problem" role="alert" className="text-s font-semibold text-stop empty:hidden">
          {problem}
        </p>
        <p role="status" className="text-s font-semibold text-caution empty:hidden">
          {sayOff(step, weight)}
        </p>
        {back && (
          <Button look="quiet" onClick={back}>
            Back
          </Button>
        )}
      </div>
      <button
        type="button"
        onClick={() => problem === null && next()}
        aria-disabled={problem !== null}
        className="min-h-40 w-full cursor-pointer rounded bg-accent text-xl font-semibold text-on-accent"
      >
        {place + 1 < of ? 'Next step' : 'Check the total'}
      </button>
    </div>
  )
}

export function Finished({ sheet, again, back }: { sheet: ScaleSheet; again: () => void; back: () => void }) {
  return (
    <div className="grid gap-4">
      <h2>All in. The scale shows</h2>
      <p className="text-[clamp(4.5rem,26vw,11rem)] leading-none font-bold">
        {grams(sheet.finalGrams)}
        {sheet.finalGrams !== null && <span className="text-xl font-normal"> g</span>}
      </p>
      <p className="text-l">± {fixed(sheet.tolerance, 1)} g. Further off, and a step went wrong.</p>
      <div className="flex flex-wrap gap-3">
        <Button onClick={again}>Done</Button>
        <Button look="quiet" onClick={back}>
          Back
        </Button>
      </div>
    </div>
  )
}
