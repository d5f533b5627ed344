import { demand } from '@/lib/base/demand'
import { doseForBeverage } from './brew'
import { retentionOf } from './brewing'
import type { Brewing, BuildLine, TrialBuild } from './trial'
import { gramsOfLine } from './contents'
import { written } from './figure'
import { isBrewed } from './instant'
import { contentsOfLine } from './preparation'

const replaced = (build: TrialBuild, name: string, key: string, line: BuildLine): TrialBuild => ({
  ...build,
  name,
  lines: build.lines.map((one) => (one.key === key ? line : one)),
})

/** A rung is named for what varies: the name of the trial it comes from may say a dose that it does not have any more. */
const rungName = (build: TrialBuild, varies: string) => `${varies}, else as ${build.name}`

function lineOf(build: TrialBuild, key: string): BuildLine {
  const line = build.lines.find((one) => one.key === key)
  demand(line !== undefined, `a ladder varies a line of the trial, got ${key}`)
  return line
}

const fresh = (line: BuildLine, targetGrams: number): BuildLine => ({
  ...line,
  targetGrams,
  weighedGrams: null,
  typed: null,
})

/** Nothing of a child has been weighed yet. */
const unweighed = (build: TrialBuild): TrialBuild => ({
  ...build,
  lines: build.lines.map((line) => ({ ...line, weighedGrams: null })),
})

/**
 * Which trials vary the dose of one line, all else held?
 *
 * @param key     of the line
 * @param levels  grams above 0
 * @throws RangeError  an unknown line, or a level not above 0
 *
 * Source   our own rule: one thing at a time
 * Checked  test/unit/drink/ladder.test.ts
 */
export function doseLadder(build: TrialBuild, key: string, levels: readonly number[]): readonly TrialBuild[] {
  const line = lineOf(build, key)
  return levels.map((grams) => {
    demand(grams > 0, `a level must be above 0 g, got ${grams}`)
    return replaced(unweighed(build), rungName(build, `${line.name} ${written(grams, 1)} g`), key, fresh(line, grams))
  })
}

/**
 * Which trials vary the brew ratio?
 *
 *     hold dose:      D stays, the beverage in the glass grows with r
 *     hold beverage:  D = B / (r − k) or B / r, the glass stays as full
 *
 * @param levels  ratios above 0, for water-in above the retention
 * @param hold    what stays the same
 * @throws RangeError  no brew or no ratio kind, no grounds, a level that leaves no beverage
 *
 * Source   balance of mass
 * Checked  test/unit/drink/ladder.test.ts
 * Limits   Holding the beverage changes the dose with the ratio: that is what a ratio means at a fixed glass.
 */
export function ratioLadder(
  build: TrialBuild,
  levels: readonly number[],
  hold: 'dose' | 'beverage',
): readonly TrialBuild[] {
  const { brew } = build
  const grounds = build.lines.filter((line) => isBrewed(line, brew))
  demand(
    brew !== null && brew.ratioKind !== null,
    `a ratio ladder needs a brew with its kind of ratio, got ${brew?.ratioKind}`,
  )
  demand(grounds.length > 0, `a ratio ladder needs grounds in the trial, got ${grounds.length}`)
  const kind = brew.ratioKind
  // Instant keeps nothing and adds itself: B = (r + 1) · D.
  const kept = brew.brewing === 'dissolved' ? -1 : retentionOf(brew).total
  return levels.map((ratio) => {
    demand(ratio > (kind === 'water-in' ? Math.max(0, kept) : 0), `a level must leave beverage, got ${ratio}`)
    const lines = build.lines.map((line) => {
      if (hold === 'dose' || !grounds.includes(line)) return { ...line, weighedGrams: null }
      const beverage = contentsOfLine({ ...line, weighedGrams: null }, brew).grams
      demand(beverage.missing.length === 0, `the beverage to hold must be known, got ${beverage.missing.join(', ')}`)
      return fresh(line, doseForBeverage(beverage.total, ratio, kind, kept))
    })
    return { ...build, name: rungName(build, `1:${written(ratio)}`), brew: { ...brew, ratio }, lines }
  })
}

/** Which trials vary the method? @param methods name, way of brewing, and what is known of the grounds each keeps */
export function methodLadder(
  build: TrialBuild,
  methods: readonly { readonly method: string; readonly brewing: Brewing; readonly retention: number | null }[],
): readonly TrialBuild[] {
  const { brew } = build
  demand(brew !== null, `a method ladder needs a brew in the trial, got ${brew}`)
  return methods.map((way) => ({
    ...unweighed(build),
    name: rungName(build, way.method),
    // What was measured of one method is not true of another.
    brew: { ...brew, ...way, extractionPercent: null, strengthPercent: null },
  }))
}

/** Which trials put another ingredient on one line, by the same mass? For a sweetener use `swapSweetener`. */
export function ingredientLadder(build: TrialBuild, key: string, others: readonly BuildLine[]): readonly TrialBuild[] {
  const grams = lineOf(build, key).targetGrams
  return others.map((other) =>
    replaced(unweighed(build), rungName(build, other.name), key, { ...fresh(other, grams), key }),
  )
}

/** What a swap made: the trial, and the water that now balances it (negative would be needed: not possible). */
export type Swapped =
  | { readonly ok: true; readonly build: TrialBuild; readonly waterGrams: number }
  | { readonly ok: false; readonly missing: readonly string[] }

/**
 * Which trial has the same sugar from another sweetener?
 *
 *     m₂ = m₁ · s₁ / s₂,   water line + (m₁ − m₂)      s = sugar per gram;  total mass and sugar stay
 *
 * @param key       of the sweetener line
 * @param other     the new sweetener, any amount
 * @param waterKey  line that takes up the difference, or null for a new line of water
 * @returns         the trial, or what is missing: sugars not known, or not enough water to take away
 * @throws RangeError  an unknown line
 *
 * Source   balance of mass
 * Checked  test/unit/drink/ladder.test.ts
 */
export function swapSweetener(build: TrialBuild, key: string, other: BuildLine, waterKey: string | null): Swapped {
  const held = unweighed(build)
  const line = lineOf(held, key)
  const before = contentsOfLine(line, held.brew)
  const per = contentsOfLine(fresh(other, 1), held.brew)
  const missing = [...before.sugars.missing, ...per.sugars.missing]
  if (missing.length > 0) return { ok: false, missing: [...new Set(missing)] }
  if (!(per.sugars.total > 0)) return { ok: false, missing: [`sugar in ${other.name}`] }
  const grams = before.sugars.total / per.sugars.total
  const difference = gramsOfLine(line).total - grams
  const present = waterKey === null ? null : lineOf(held, waterKey)
  const waterGrams = (present?.targetGrams ?? 0) + difference
  if (waterGrams < -1e-9) return { ok: false, missing: [`${written(-waterGrams, 1)} g of water to take away`] }
  const swapped = replaced(held, rungName(build, other.name), key, { ...fresh(other, grams), key })
  const others = swapped.lines.filter((one) => one.key !== waterKey)
  if (waterGrams < 1e-9) return { ok: true, waterGrams: 0, build: { ...swapped, lines: others } }
  if (present === null) {
    return {
      ok: true,
      waterGrams,
      build: { ...swapped, lines: [...swapped.lines, balanceWater(swapped.lines, waterGrams)] },
    }
  }
  return { ok: true, waterGrams, build: replaced(swapped, swapped.name, present.key, fresh(present, waterGrams)) }
}

function balanceWater(lines: readonly BuildLine[], targetGrams: number): BuildLine {
  const taken = new Set(lines.map((line) => line.key))
  let key = 'water'
  while (taken.has(key)) key += '-more'
  return {
    key,
    name: 'Water',
    insteadOf: null,
    kind: 'water',
    form: 'liquid',
    role: 'balance',
    targetGrams,
    weighedGrams: null,
    toleranceGrams: null,
    typed: null,
    grind: null,
    temperature: null,
    density: null,
    costPerGram: 0,
    composition: null,
    allergens: {},
    labelRead: true,
    preparation: null,
  }
}
