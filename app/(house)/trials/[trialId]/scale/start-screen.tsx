'use client'

import type { TrialBuild } from '@/lib/drink/trial'
import { mostGlasses, type Way } from '@/lib/forms/scale-steps'
import { Button } from '@/app/ui/button'
import { Cautions } from '@/app/ui/cautions'
import { Notice } from '@/app/ui/notice'
import { sayLevel } from '@/app/ui/say-level'
import { sayKept, type Kept } from './say-scale'
import { WayChoice } from './way'

/** Before the first step: how many glasses, how one weighs, and what became of what was read off before. */
export function StartScreen({
  build,
  cautions,
  glasses,
  choose,
  way,
  begin,
  keeps,
  waiting,
  kept,
}: {
  readonly build: TrialBuild
  readonly cautions: readonly string[]
  readonly glasses: number
  readonly choose: (glasses: number) => void
  readonly way: Way
  readonly begin: (() => void) | null
  readonly keeps: boolean
  readonly waiting: number
  readonly kept: Kept | null
}) {
  const level = sayLevel(build)
  return (
    <div className="grid max-w-md gap-5">
      <div role="status" className="empty:hidden">
        {kept && <Notice look={kept.outcome === 'refused' ? 'caution' : 'note'}>{sayKept(kept)}</Notice>}
      </div>
      {level && <p className="font-semibold">{level}</p>}
      <Cautions said={cautions} />
      <label className="grid gap-1 font-semibold">
        Glasses, built together in one jug
        <select
          value={glasses}
          onChange={(event) => choose(Number(event.target.value))}
          className="min-h-11 rounded border border-edge bg-raised px-3 font-normal"
        >
          {Array.from({ length: mostGlasses }, (_, n) => (
            <option key={n + 1} value={n + 1}>
              {n + 1}
            </option>
          ))}
        </select>
      </label>
      <WayChoice way={way} />
      <Button onClick={() => begin?.()} disabled={begin === null}>
        Put the empty jug on the scale, tare it, begin
      </Button>
      <p className="text-s text-soft">
        This page keeps working when the connection is lost;{' '}
        {keeps ? 'what you weighed is sent when it is back' : 'what you weigh here is not kept'}. It cannot be opened
        anew without one.
      </p>
      {waiting > 0 && (
        <p role="status">
          {waiting} weighing{waiting > 1 && 's'} {waiting > 1 ? 'wait' : 'waits'} for the connection.
        </p>
      )}
    </div>
  )
}
