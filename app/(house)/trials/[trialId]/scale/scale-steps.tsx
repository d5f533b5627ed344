'use client'

import { useEffect, useMemo, useRef, useState } from 'react'
import type { TrialBuild } from '@/lib/drink/trial'
import { mostGlasses, stepsFor } from '@/lib/forms/scale-steps'
import { Button } from '@/app/ui/button'
import { Cautions } from '@/app/ui/cautions'
import { sayLevel } from '@/app/ui/say-level'
import { BigStep, Finished } from './big-step'
import { useKeptWeights } from './kept-weights'
import { useWakeLock } from './wake-lock'

interface Props {
  readonly trialId: string
  readonly build: TrialBuild
  readonly cautions: readonly string[]
  /** may this person's weights be kept? */
  readonly records: boolean
}

/** One step per screen, digits readable from a metre away. Loaded once, it needs no connection to the end. */
export function ScaleSteps({ trialId, build, cautions, records }: Props) {
  const [glasses, setGlasses] = useState(1)
  const [place, setPlace] = useState<number | null>(null)
  const { weights, weigh, finish, waiting } = useKeptWeights(trialId, records)
  const awake = useWakeLock(place !== null)
  const sheet = useMemo(() => stepsFor(build, glasses), [build, glasses])
  const level = sayLevel(build)
  const top = useRef<HTMLDivElement>(null)
  useEffect(() => {
    if (place !== null) top.current?.focus()
  }, [place])

  if (place === null) {
    return (
      <div className="grid max-w-md gap-5">
        {level && <p className="font-semibold">{level}</p>}
        <Cautions said={cautions} />
        <label className="grid gap-1 font-semibold">
          Glasses, built together in one jug
          <select
            value={glasses}
            onChange={(event) => setGlasses(Number(event.target.value))}
            className="min-h-11 rounded border border-edge bg-raised px-3 font-normal"
          >
            {Array.from({ length: mostGlasses }, (_, n) => (
              <option key={n + 1} value={n + 1}>
                {n + 1}
              </option>
            ))}
          </select>
        </label>
        <Button onClick={() => setPlace(0)} disabled={sheet.steps.length === 0}>
          Put the empty jug on the scale, tare it, begin
        </Button>
        <p className="text-s text-soft">
          This page keeps working when the connection is lost;{' '}
          {records ? 'what you weighed is sent when it is back' : 'what you weigh here is not kept'}. It cannot be
          opened anew without one.
        </p>
        {waiting > 0 && <p role="status">{waiting} weighing waits for the connection.</p>}
      </div>
    )
  }
  const step = sheet.steps[place]
  return (
    <div ref={top} tabIndex={-1} className="outline-none">
      {step ? (
        <BigStep
          step={step}
          place={place}
          of={sheet.steps.length}
          weight={weights[place] ?? ''}
          weigh={(typed) => weigh(place, typed)}
          next={() => setPlace(place + 1)}
          back={place > 0 ? () => setPlace(place - 1) : null}
        />
      ) : (
        <Finished
          sheet={sheet}
          again={() => {
            finish(glasses)
            setPlace(null)
          }}
          back={() => setPlace(place - 1)}
        />
      )}
      <p className="mt-3 text-s text-soft">
        {awake
          ? 'The screen stays on.'
          : 'The browser does not keep the screen on here: that takes https. Touch it now and then.'}
      </p>
    </div>
  )
}
