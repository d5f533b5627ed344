import type { BuildLine, TrialBuild } from './trial'
import type { Contents } from './contents'
import { gramsOfLine } from './contents'
import type { Figure, Tally } from './figure'
import { combine, figure, sum, tally, times, written } from './figure'
import { USUAL_HEAT_LEAK, USUAL_ROOM, WATER_HEAT, foodHeat, meltBalance, roomMelt, syrupHeat } from './ice'
import type { WarmLiquid } from './ice'
import { SOURCE } from './source'
import type { Fit } from './vessel'
import { ICE_DENSITY, fitOf, volumeUnder } from './vessel'

/** A line of the trial with what it brings. */
export type Poured = { readonly line: BuildLine; readonly contents: Contents }

const isIce = ({ line }: Poured) => line.form === 'ice' && !line.preparation

/** How is a sum written with its numbers in it? "120 (Brew) + 63.9 (Milk)"; parts that add nothing are left out. */
export function addends(parts: readonly { readonly name: string; readonly amount: Tally }[], digits = 2): string {
  const shown = parts.filter(({ amount }) => amount.total !== 0)
  return shown.map(({ name, amount }) => `${written(amount.total, digits)} (${name})`).join(' + ') || '0'
}

const addendsOf = (poured: readonly Poured[], measure: 'grams' | 'volume' | 'coffeeSolids') =>
  addends(poured.map(({ line, contents }) => ({ name: line.name, amount: contents[measure] })))

const USUAL_COLD = 5
const USUAL_SHELF = 22
const MILK_HEAT = 3.9

function celsiusOf(line: BuildLine, build: TrialBuild): Tally {
  if (line.temperature !== null) return tally(line.temperature, '')
  if (line.kind === 'coffee') return tally(build.coffeeTemperature, 'temperature of the coffee when poured')
  const usual = line.kind === 'milk' ? USUAL_COLD : USUAL_SHELF
  return tally(usual, '', [`${line.name} at ${usual} °C (not measured)`])
}

function heatOf({ line, contents }: Poured, celsius: number): Tally {
  if (line.kind === 'coffee' || line.kind === 'water') return tally(WATER_HEAT, '')
  if (line.kind === 'sweetener' && contents.sugars.missing.length === 0 && contents.grams.total > 0) {
    return tally(syrupHeat(Math.min(100, (100 * contents.sugars.total) / contents.grams.total), celsius), '')
  }
  if (contents.water.missing.length === 0 && contents.grams.total > 0) {
    return tally(foodHeat(Math.min(1, Math.max(0, contents.water.total / contents.grams.total))), '')
  }
  const usual = line.kind === 'milk' ? MILK_HEAT : WATER_HEAT
  return tally(usual, '', [`${line.name} holds ${usual} J/(g·K), as its water content is not known`])
}

type Chill = Readonly<Record<'melted' | 'left' | 'celsius' | 'lacking', Tally>> & { readonly working: string }

/** Ice against the warmth of what is poured on it. */
function chill(build: TrialBuild, poured: readonly Poured[]): Chill {
  const ice = poured.filter(isIce)
  const iceGrams = sum(ice.map(({ line }) => gramsOfLine(line)))
  const colds = ice.map(({ line }) =>
    combine(
      [gramsOfLine(line), tally(line.temperature ?? build.iceTemperature, 'temperature of the ice')],
      (grams, celsius) => grams * celsius,
    ),
  )
  const iceCelsius = combine([sum(colds), iceGrams], (cold, grams) => (grams > 0 ? cold / grams : 0))
  const liquids: { of: Tally; liquid: WarmLiquid }[] = poured
    .filter((one) => !isIce(one))
    .map((one) => {
      const celsius = celsiusOf(one.line, build)
      const heat = heatOf(one, celsius.total)
      const liquid = { grams: one.contents.grams.total, celsius: celsius.total, heat: heat.total }
      return { of: sum([one.contents.grams, celsius, heat]), liquid }
    })
  const warm = liquids.map(({ liquid }) => liquid)
  const all = [iceGrams, iceCelsius, ...liquids.map(({ of }) => of)]
  const part = (pick: 'melted' | 'iceLeft' | 'celsius' | 'lacking') =>
    combine(all, () => {
      const sound =
        poured.length > 0 && iceCelsius.total <= 0 && warm.every(({ grams, heat }) => grams >= 0 && heat > 0)
      return sound ? meltBalance(warm, iceGrams.total, iceCelsius.total)[pick] : Number.NaN
    })
  const heats = warm.map((l) => `${written(l.grams, 1)} · ${written(l.heat, 3)} · ${written(l.celsius, 1)}`)
  const working = `(${heats.join(' + ')} − ${written(iceGrams.total, 1)} · 2.05 · ${written(-iceCelsius.total, 1)})`
  return { melted: part('melted'), left: part('iceLeft'), celsius: part('celsius'), lacking: part('lacking'), working }
}

/** Figures of mass, room, ice and strength. */
export type GlassFigures = {
  readonly totalMass: Figure
  readonly volume: Figure
  readonly fit: Fit | 'not-known'
  readonly roomToBrim: Figure
  readonly roomToFillLine: Figure | null
  readonly iceMelted: Figure
  readonly temperature: Figure
  readonly solidsBeforeMelt: Figure
  readonly solidsAfterMelt: Figure
  readonly dilution: readonly { readonly minutes: number; readonly meltwater: Figure; readonly coffeeSolids: Figure }[]
}

const MINUTES = [5, 10, 20] as const

/**
 * How full, how cold and how strong is the glass, now and in twenty minutes?
 *
 *     V = Σ liquid m/ρ + m_ice/0.9167;   melt by heat balance;   solids % = 100 · coffee solids / (liquid + melt)
 *     after minutes: melt + min(ice left, (hA · T_room · 60 · minutes − what warms the ice to 0 °C) / 333.55)
 *
 * @param poured  every line of the trial, ice among them
 *
 * Source   displacement, heat balance, ideal mixing
 * Checked  test/reference/ice-heat-balance.test.ts, test/reference/vessel-displacement.test.ts
 * Limits   The room's warmth is an estimate until the café has weighed its own ice.
 */
export function glassFigures(build: TrialBuild, poured: readonly Poured[]): GlassFigures {
  const liquids = poured.filter((one) => !isIce(one))
  const ice = sum(poured.filter(isIce).map(({ line }) => gramsOfLine(line)))
  const liquid = sum(liquids.map(({ contents }) => contents.grams))
  const mass = sum([liquid, ice])
  const liquidMl = sum(liquids.map(({ contents }) => contents.volume))
  const under = combine([liquidMl, ice], volumeUnder)
  const solids = sum(liquids.map(({ contents }) => contents.coffeeSolids))
  const { melted, left, celsius, lacking, working } = chill(build, poured)

  const percent = (water: Tally) => combine([solids, liquid, water], (s, l, w) => (100 * s) / (l + w))
  const strength = (water: Tally) =>
    figure(
      percent(water),
      '%',
      () => `100 · ${written(solids.total, 3)} / (${written(liquid.total, 1)} + ${written(water.total, 1)} meltwater)`,
      [SOURCE.massBalance],
    )
  const room = tally(
    build.room?.temperature ?? USUAL_ROOM,
    '',
    build.room?.temperature == null ? [`room at ${USUAL_ROOM} °C`] : [],
  )
  const leak = tally(
    build.room?.heatLeak ?? USUAL_HEAT_LEAK,
    '',
    build.room?.heatLeak == null ? [`glass lets in ${USUAL_HEAT_LEAK} W/K (estimate)`] : [],
  )
  const after = (minutes: number) =>
    combine([melted, left, room, leak, lacking], (m, l, t, h, j) =>
      t >= 0 && h >= 0 ? m + roomMelt(l, minutes, t, h, j) : Number.NaN,
    )

  return {
    totalMass: figure(mass, 'g', () => addendsOf(poured, 'grams'), [SOURCE.massBalance]),
    volume: figure(
      under,
      'ml',
      () => `${addendsOf(liquids, 'volume')} + ${written(ice.total, 1)} / ${ICE_DENSITY} (ice, held under)`,
      [SOURCE.idealMixing, SOURCE.iceDensity],
    ),
    ...roomOf(build, under),
    iceMelted: figure(melted, 'g', () => `${working} / 333.55, between 0 and ${written(ice.total, 1)}`, [
      SOURCE.iceBalance,
    ]),
    temperature: figure(
      celsius,
      '°C',
      () => (left.total > 0 ? '0 while ice is left' : `(${working} − ${written(ice.total, 1)} · 333.55) / heat held`),
      [SOURCE.iceBalance],
    ),
    solidsBeforeMelt: strength(times(ice, 0)),
    solidsAfterMelt: strength(melted),
    dilution: MINUTES.map((minutes) => {
      const water = after(minutes)
      const cold = lacking.total > 0 ? ` − ${written(lacking.total, 0)} J that first warm the ice` : ''
      const heat = `60 · ${minutes} · ${written(leak.total)} · ${written(room.total, 1)}`
      const grew = `${written(melted.total, 1)} + at most ${written(left.total, 1)}: (${heat}${cold}) / 333.55`
      return {
        minutes,
        meltwater: figure(water, 'g', () => grew, [SOURCE.iceBalance, SOURCE.heatLeak]),
        coffeeSolids: strength(water),
      }
    }),
  }
}

function roomOf({ vessel }: TrialBuild, under: Tally): Pick<GlassFigures, 'fit' | 'roomToBrim' | 'roomToFillLine'> {
  const brim = tally(vessel !== null && vessel.brimMl > 0 ? vessel.brimMl : null, 'volume of the vessel to its brim')
  const roomTo = (line: Tally) =>
    figure(
      combine([line, under], (held, full) => held - full),
      'ml',
      () => `${written(line.total, 1)} − ${written(under.total, 1)}`,
      [SOURCE.massBalance],
    )
  const known = under.missing.length === 0 && brim.missing.length === 0
  return {
    fit: known ? fitOf(under.total, brim.total, vessel?.fillMl ?? null) : 'not-known',
    roomToBrim: roomTo(brim),
    roomToFillLine: vessel?.fillMl == null ? null : roomTo(tally(vessel.fillMl, '')),
  }
}
