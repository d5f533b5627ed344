/**
 * The whole invented drink of the manual, by another program and another route: preparations as one linear system.
 * Made      make/ferry-steps-by-hand.py (numpy, mpmath) from lib/commands/example-trial.json.
 */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import type { Figure } from '@/lib/drink/figure'
import { readTrialFile } from '@/lib/forms/trial-of-file'
import exact from './data/ferry-steps-by-hand.json'

const trial = readTrialFile(readFileSync('lib/commands/example-trial.json', 'utf8'))
if (!trial.ok) throw new Error(trial.detail?.message)
const figures = computeBuild(trial.value)

const value = (one: Figure | null | undefined) => (one?.known ? one.value : Number.NaN)
const { caffeine } = figures

const ours: Readonly<Record<string, number>> = {
  ...Object.fromEntries(Object.entries(figures).map(([name, one]) => [name, value(one as Figure | null)])),
  ...Object.fromEntries(Object.entries(figures.cost).map(([name, one]) => [name, value(one)])),
  caffeineLow: caffeine.known ? caffeine.low : Number.NaN,
  caffeineHigh: caffeine.known ? caffeine.high : Number.NaN,
  ...Object.fromEntries(figures.dilution.map(({ minutes, meltwater }) => [`dilution${minutes}`, value(meltwater)])),
}

test.each(exact.cases.map(({ figure, value: wanted }) => [figure, wanted] as const))(
  '%s is %d by the other program',
  (name, wanted) => {
    expect(Math.abs((ours[name] ?? Number.NaN) - wanted)).toBeLessThan(exact.within * Math.max(1, Math.abs(wanted)))
  },
)
