import type { TrialBuild } from '@/lib/drink/trial'
import { MOST_GLASSES, scaleSheet, type ScaleSheet } from '@/lib/drink/scale'

export const mostGlasses = MOST_GLASSES

/** What one does at the scale for a number of glasses; the page computes it without a connection. */
export function stepsFor(build: TrialBuild, glasses: number): ScaleSheet {
  return scaleSheet(build, glasses)
}
