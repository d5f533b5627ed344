'use client'

import { useEffect, useMemo, useRef, useState } from 'react'
import type { ForToday } from '@/lib/drink/for-today'
import type { TrialBuild } from '@/lib/drink/trial'
import { doingsOf, stepsFor, wantedAt } from '@/lib/forms/scale-steps'
import { BigStep, Finished } from './big-step'
import { BrewScreen } from './brew-screen'
import { useBrewTimer } from './brew-timer'
import { useKeptWeights } from './kept-weights'
import { StartScreen } from './start-screen'
import type { Turn } from './step-frame'
import { noBrew, readingsOf, readOff, useTypedWeights } from './typed-weights'
import { useWakeLock } from './wake-lock'
import { useWay } from './way'

interface Props {
  readonly trialId: string
  readonly build: TrialBuild
  readonly today: ForToday
  readonly cautions: readonly string[]
  /** where this person's weights are kept; null: nowhere */
  readonly keptAt: string | null
}

/** One step per screen, digits readable from a metre away. Loaded once, it needs no connection to the end. */
export function ScaleSteps({ trialId, build, today, cautions, keptAt }: Props) {
  const [glasses, setGlasses] = useState(1)
  const [place, setPlace] = useState<number | null>(null)
  const typed = useTypedWeights()
  const timerOf = useBrewTimer()
  const way = useWay()
  const { waiting, kept, keep } = useKeptWeights(trialId, keptAt)
  const awake = useWakeLock(place !== null)
  const sheet = useMemo(() => stepsFor(build, glasses, today), [build, glasses, today])
  const doings = useMemo(() => doingsOf(sheet), [sheet])
  const top = useRef<HTMLDivElement>(null)
  useEffect(() => {
    if (place !== null) top.current?.focus()
  }, [place])

  if (place === null)
    return (
      <StartScreen
        build={build}
        cautions={cautions}
        glasses={glasses}
        choose={setGlasses}
        way={way}
        begin={sheet.steps.length === 0 ? null : () => setPlace(0)}
        keeps={keptAt !== null}
        waiting={waiting}
        kept={kept}
      />
    )
  const doing = doings[place]
  const turn: Turn = {
    place,
    of: doings.length,
    next: () => setPlace(place + 1),
    back: () => setPlace(place === 0 ? null : place - 1),
  }
  const done = () => {
    keep(readOff(sheet.steps, way, glasses, typed))
    typed.clear()
    setPlace(null)
  }
  const readings = readingsOf(typed.readings, sheet.steps.length)
  return (
    <div ref={top} tabIndex={-1} className="outline-none">
      {doing?.kind === 'brew' && (
        <BrewScreen
          doing={doing}
          turn={turn}
          typed={typed.brews[doing.place] ?? noBrew}
          type={(more) => typed.brew(doing.place, more)}
          timer={timerOf(doing.place)}
        />
      )}
      {doing?.kind === 'weigh' && (
        <BigStep
          key={doing.place}
          step={doing.step}
          wanted={wantedAt(sheet.steps, doing.place, way, readings)}
          way={way}
          turn={turn}
          typed={typed.readings[doing.place] ?? ''}
          type={(value) => typed.weigh(doing.place, value)}
        />
      )}
      {!doing && (
        <Finished sheet={sheet} way={way} keeps={keptAt !== null} done={done} back={() => setPlace(place - 1)} />
      )}
      <p className="mt-3 text-s text-soft">
        {awake
          ? 'The screen stays on.'
          : 'The browser does not keep the screen on here: that takes https. Touch it now and then.'}
      </p>
    </div>
  )
}
