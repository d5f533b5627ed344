import { no, ok, type Result } from '@/lib/base/result'
import { sum } from './figure'
import { isBrewed } from './instant'
import { contentsOfLine } from './preparation'
import type { Brew, BuildLine, TrialBuild } from './trial'
import { PERCENT } from './unit'

/**
 * Why a share is no amount. `share-of-nothing`: every line is a share, so nothing says how much the whole is.
 * `shares-too-much`: together 100 or more, nothing is left for the other lines. `share-of-grounds`: dry coffee does not go into
 * the glass. `share-of-unknown`: another line is not known yet.
 */
export type ShareRefusal = 'share-of-nothing' | 'shares-too-much' | 'share-of-grounds' | 'share-of-unknown'

const isShare = ({ typed }: Pick<BuildLine, 'typed'>) => typed?.unit === PERCENT

/** What a line puts into the glass by its target: of grounds the beverage. */
const inGlass = (line: BuildLine, brew: Brew | null) => contentsOfLine({ ...line, weighedGrams: null }, brew).grams

/**
 * How many grams are the lines that were typed as percent?
 *
 *     whole = F + Σ pᵢ · whole / 100   ⇒   mᵢ = pᵢ · F / (100 − Σ p),   F = Σ of all other lines as they reach the glass
 *
 * The whole is the drink as built, by mass: every line by its target, ice with it and coffee as brewed, before ice melts.
 *
 * @param lines  in any order; what stands as the grams of a share is not looked at
 * @param brew   of grounds poured straight into the glass
 * @returns      grams by key of line, none where nothing was typed as a share; or why not, with detail.key (of the line to
 *               say it beside), detail.percent (all together), detail.missing (what is not known)
 *
 * Source   balance of mass; one linear equation, solved as it stands
 * Checked  test/unit/drink/shares.test.ts
 */
export function gramsOfShares(
  lines: readonly BuildLine[],
  brew: Brew | null,
): Result<ReadonlyMap<string, number>, ShareRefusal> {
  const shares = lines.filter(isShare)
  const last = shares.at(-1)
  if (!last) return ok(new Map())
  const dry = shares.find((line) => isBrewed(line, brew))
  if (dry) return no('share-of-grounds', { key: dry.key })
  const others = lines.filter((line) => !isShare(line))
  if (others.length === 0) return no('share-of-nothing', { key: last.key })
  const percent = shares.reduce((all, { typed }) => all + (typed?.amount ?? 0), 0)
  // a share that is told from 100 by less than the rounding of a sum leaves nothing
  if (!(percent < 100 - 1e-9)) return no('shares-too-much', { key: last.key, percent: String(percent) })
  const rest = sum(others.map((line) => inGlass(line, brew)))
  if (rest.missing.length > 0) return no('share-of-unknown', { key: last.key, missing: rest.missing.join(', ') })
  return ok(new Map(shares.map(({ key, typed }) => [key, ((typed?.amount ?? 0) * rest.total) / (100 - percent)])))
}

/** g: how far grams may lie from a share that they are, each line being kept to a thousandth. */
const KEPT = 0.0005

/**
 * Which lines say a share that their grams are not? After another line was changed or swapped.
 *
 *     |mᵢ − pᵢ · whole / 100| is more than rounding every line to a milligram makes
 *
 * @returns  keys; of a whole that is not known, every share
 *
 * Source   balance of mass
 * Checked  test/unit/drink/shares.test.ts
 */
export function untrueShares(lines: readonly BuildLine[], brew: Brew | null): ReadonlySet<string> {
  const shares = lines.filter(isShare)
  const whole = shares.length === 0 ? null : sum(lines.map((line) => inGlass(line, brew)))
  const untrue = shares.filter((line) => {
    if (whole === null || whole.missing.length > 0 || isBrewed(line, brew)) return true
    const share = (line.typed?.amount ?? 0) / 100
    return Math.abs(line.targetGrams - share * whole.total) > KEPT * (1 + share * lines.length) + 1e-9
  })
  return new Set(untrue.map(({ key }) => key))
}

/** A trial that says no share which is not one: there its grams stand alone. */
export function withTrueShares<Build extends Pick<TrialBuild, 'lines' | 'brew'>>(build: Build): Build {
  const untrue = untrueShares(build.lines, build.brew)
  if (untrue.size === 0) return build
  return { ...build, lines: build.lines.map((line) => (untrue.has(line.key) ? { ...line, typed: null } : line)) }
}
