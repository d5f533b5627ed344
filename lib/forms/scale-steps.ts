import type { ForToday } from '@/lib/drink/for-today'
import type { TrialBuild } from '@/lib/drink/trial'
import { MOST_GLASSES, onTarget, scaleSheet, type BrewStep, type ScaleSheet, type ScaleStep } from '@/lib/drink/scale'

export const mostGlasses = MOST_GLASSES

/** What one does at the scale for a number of glasses; the page computes it without a connection. */
export function stepsFor(build: TrialBuild, glasses: number, today: ForToday): ScaleSheet {
  return scaleSheet(build, glasses, today)
}

/** How somebody weighs: taring before each thing, or taring once and letting the scale run on. */
export type Way = 'tare' | 'run'

/** One thing to do beside the scale; `place` of the line it belongs to, counted from 0. Grounds are brewed before they are poured. */
export type Doing =
  | { readonly kind: 'brew'; readonly place: number; readonly name: string; readonly brew: BrewStep }
  | { readonly kind: 'weigh'; readonly place: number; readonly step: ScaleStep }

/** What one does, in order: brewing is a thing of its own. */
export function doingsOf({ steps }: ScaleSheet): readonly Doing[] {
  return steps.flatMap((step, place): readonly Doing[] => [
    ...(step.brew ? [{ kind: 'brew', place, name: step.name, brew: step.brew } as const] : []),
    { kind: 'weigh', place, step },
  ])
}

/**
 * What the scale should read once this is in. Grams; null where nobody can say.
 *
 * Running on, it goes on from what was read off before: a step that went wrong does not make the next one wrong.
 *
 * @param readings  what was read off at each place, grams; null: nothing
 */
export function wantedAt(
  steps: readonly Pick<ScaleStep, 'add'>[],
  place: number,
  way: Way,
  readings: readonly (number | null)[],
): number | null {
  const add = steps[place]?.add ?? null
  if (add === null || way === 'tare' || place === 0) return add
  const before = readings[place - 1] ?? wantedAt(steps, place - 1, way, readings)
  return before === null ? null : before + add
}

/** What was added by what the scale showed. Grams; null where nothing was read off, or nobody knows what stood there before. */
export function addedAt(
  steps: readonly Pick<ScaleStep, 'add'>[],
  place: number,
  way: Way,
  readings: readonly (number | null)[],
): number | null {
  const shown = readings[place] ?? null
  if (shown === null || way === 'tare' || place === 0) return shown
  const before = readings[place - 1] ?? wantedAt(steps, place - 1, way, readings)
  // a kitchen scale shows no finer than a milligram, and a difference of two readings is no finer either
  return before === null ? null : Math.round((shown - before) * 1000) / 1000
}

/** Grams that a reading is away from what is wanted, below zero where it is short; null where it is right or nobody can say. */
export function offBy(wanted: number | null, tolerance: number, grams: number | null): number | null {
  if (grams === null || wanted === null || onTarget(grams, wanted, tolerance) === 'right') return null
  return grams - wanted
}

/** Where the band of a column lies, from 0 at its foot to 1 at its brim: drawn so that it can be hit, not to scale. */
export const BAND = { foot: 0.7, top: 0.85 } as const

/**
 * How full is the column of a step? 0 to 1.
 *
 * Up to the band it fills by the share of what is wanted; inside the band by where it lies between the two limits; beyond it the
 * rest is gone at twice the tolerance.
 */
export function columnLevel(grams: number | null, wanted: number | null, tolerance: number): number {
  if (grams === null || wanted === null || tolerance <= 0 || grams <= 0) return 0
  const least = wanted - tolerance
  if (grams < least) return (BAND.foot * grams) / least
  const inside = BAND.foot + ((BAND.top - BAND.foot) * (grams - least)) / (2 * tolerance)
  return Math.min(1, inside)
}
