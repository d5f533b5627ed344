'use client'

import { fixed, plain } from '@/lib/base/number-format'
import type { Doing } from '@/lib/forms/scale-steps'
import { Button } from '@/app/ui/button'
import { sayBrewing } from '../say-brewing'
import { sayClock, type BrewTimer } from './brew-timer'
import { numberProblem } from './read-weight'
import { sayOff } from './say-scale'
import { ScaleField } from './scale-field'
import { StepFrame, type Turn } from './step-frame'
import { brewNumbers, type TypedBrew } from './typed-weights'

const numbers = [
  ['dose', 'Dry coffee', 'g'],
  ['water', 'Water', 'g'],
  ['temperature', 'Temperature', '°C'],
] as const

/** Brewing, a step of its own: what is asked, a timer, and fields for what was really done. */
export function BrewScreen({
  doing,
  turn,
  typed,
  type,
  timer,
}: {
  readonly doing: Extract<Doing, { kind: 'brew' }>
  readonly turn: Turn
  readonly typed: TypedBrew
  readonly type: (more: Partial<TypedBrew>) => void
  readonly timer: BrewTimer
}) {
  const { brew, name } = doing
  const asked = sayBrewing(brew)
  const problems = (['dose', 'water', 'temperature', 'seconds'] as const).map((one) =>
    numberProblem(typed[one], brewNumbers[one]),
  )
  return (
    <StepFrame turn={turn} canGoOn={problems.every((problem) => problem === null)} next="Brewed">
      <h2>Brew {name}</h2>
      <p className="text-[clamp(3.5rem,18vw,7rem)] leading-none font-bold tracking-tight">
        {plain(brew.dose, brew.decimals)}
        <span className="text-xl font-normal"> g dry</span>
      </p>
      <p className="text-l">
        ± {fixed(brew.tolerance, brew.decimals)} g{asked && `; ${asked}`}
      </p>
      <div className="flex flex-wrap items-center gap-4">
        <span role="timer" className="text-xxl font-bold tabular-nums">
          {sayClock(timer.seconds)}
        </span>
        {timer.isRunning ? (
          <Button look="stop" onClick={() => type({ seconds: String(timer.stop()) })}>
            Stop the timer
          </Button>
        ) : (
          <Button look="plain" onClick={timer.start}>
            {timer.seconds > 0 ? 'Start the timer again' : 'Start the timer'}
          </Button>
        )}
        {brew.seconds !== null && timer.isRunning && (
          <span role="status" className="font-semibold">
            {timer.seconds >= brew.seconds ? 'Time is up.' : ''}
          </span>
        )}
      </div>
      <fieldset className="grid grid-cols-2 gap-3">
        <legend className="mb-1 font-semibold">What you really did, as far as you read it</legend>
        {numbers.map(([one, label, unit]) => (
          <ScaleField
            key={one}
            label={label}
            unit={unit}
            typed={typed[one]}
            problem={numberProblem(typed[one], brewNumbers[one])}
            warning={one === 'dose' ? sayOff(brew.dose, brew, typed.dose) : null}
            type={(value) => type({ [one]: value })}
          />
        ))}
        <ScaleField label="Grind" typed={typed.grind} type={(grind) => type({ grind })} words />
        <ScaleField
          label="Time"
          unit="s"
          typed={typed.seconds}
          problem={numberProblem(typed.seconds, brewNumbers.seconds)}
          type={(seconds) => type({ seconds })}
        />
      </fieldset>
    </StepFrame>
  )
}
