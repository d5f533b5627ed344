import type { TrialBuild } from '@/lib/drink/trial'
import { MOST_GLASSES, onTarget, scaleSheet, type ScaleSheet, type ScaleStep } from '@/lib/drink/scale'

export const mostGlasses = MOST_GLASSES

/** What one does at the scale for a number of glasses; the page computes it without a connection. */
export function stepsFor(build: TrialBuild, glasses: number): ScaleSheet {
  return scaleSheet(build, glasses)
}

/** Grams that what was read off is away from what is wanted, below zero where it is short; null where it is right or nobody can say. */
export function offBy({ add, tolerance }: Pick<ScaleStep, 'add' | 'tolerance'>, grams: number | null): number | null {
  if (grams === null || add === null || onTarget(grams, add, tolerance) === 'right') return null
  return grams - add
}
