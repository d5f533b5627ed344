import type { BuildFigures, BuildLine, LineKind, TrialBuild } from './trial'
import { ICE_DENSITY } from './vessel'

/** What one line fills of a glass with straight walls: from here to here, ml above the bottom. */
export type Layer = {
  readonly key: string
  readonly name: string
  readonly kind: LineKind
  /** its place on the sheet, from 1 */
  readonly line: number
  readonly from: number
  readonly to: number
}

/** A line whose room nobody knows, and what would have to be known. */
export type LayerUnknown = Pick<Layer, 'key' | 'name' | 'kind' | 'line'> & { readonly missing: readonly string[] }

/** The ice, above all that it floats on. `line`: up to where the drink stands; null where it cannot be told, or lifts nothing. */
export type IceLayer = {
  readonly lines: readonly number[]
  readonly from: number
  readonly to: number
  readonly line: number | null
}

/** A glass to be drawn: its layers from the bottom up, ml of each above the one below. */
export type GlassLayers = {
  readonly layers: readonly Layer[]
  readonly ice: IceLayer | null
  readonly unknown: readonly LayerUnknown[]
  /** ml up to where all that is known reaches, ice held together */
  readonly top: number
  /** null: no vessel is named */
  readonly brim: number | null
  readonly fill: number | null
}

// 200 g of loose ice fill up to 400 ml of a vessel: a gap of 0.83 ml beside each ml of ice. Common practice, no source.
const GAP_BESIDE_ICE = 400 / (200 / ICE_DENSITY) - 1

/**
 * How high does each part of the drink reach, in straight walls, as it is built?
 *
 *     liquid k from Σ V before it to that + V_k, in the order poured;  ice from Σ V on, V_ice = m / 0.9167
 *     the drink stands at  Σ V + m_ice / ρ_liquid,   ρ_liquid = Σ m / Σ V,  never above the ice's own top
 *
 * @param build    lines, their kinds, the vessel
 * @param figures  of the same lines: what each brings, g and ml
 * @returns        what is known, to scale; what is not known stands apart, and is no layer of no height
 *
 * Source   displacement (Archimedes), ideal mixing; ice 0.9167 g/ml at 0 °C
 * Checked  test/unit/drink/layers.test.ts
 * Limits   Poured layers mix; ice lies as loosely as it likes. Ice that too little liquid surrounds to lift it has no line.
 */
export function glassLayers(
  { lines, vessel }: Pick<TrialBuild, 'lines' | 'vessel'>,
  figures: Pick<BuildFigures, 'lines'>,
): GlassLayers {
  const poured = lines.map((line, place) => ({ line, place, ...roomOf(figures, line, place) }))
  const known = poured.filter(({ missing }) => missing.length === 0)
  const liquids = known.filter(({ line }) => !isIce(line))
  const layers: Layer[] = []
  let top = 0
  for (const { line, place, ml } of liquids) {
    layers.push({ ...nameOf(line, place), from: top, to: top + ml })
    top += ml
  }
  const unknown = poured
    .filter(({ missing }) => missing.length > 0)
    .map(({ line, place, missing }) => ({ ...nameOf(line, place), missing }))
  const frozen = known.filter(({ line }) => isIce(line))
  const iceMl = frozen.reduce((all, { ml }) => all + ml, 0)
  const grams = liquids.reduce((all, one) => all + one.grams, 0)
  const sure = unknown.length === 0
  return {
    layers,
    ice:
      frozen.length === 0
        ? null
        : {
            lines: frozen.map(({ place }) => place + 1),
            from: top,
            to: top + iceMl,
            line: sure ? floatingAt(top, grams, iceMl) : null,
          },
    unknown,
    top: top + iceMl,
    brim: vessel !== null && vessel.brimMl > 0 ? vessel.brimMl : null,
    fill: vessel !== null && vessel.fillMl !== null && vessel.fillMl > 0 ? vessel.fillMl : null,
  }
}

const isIce = (line: BuildLine) => line.form === 'ice' && !line.preparation

const nameOf = ({ key, name, kind }: BuildLine, place: number) => ({ key, name, kind, line: place + 1 })

function roomOf(figures: Pick<BuildFigures, 'lines'>, line: BuildLine, place: number) {
  const of = figures.lines[place]
  if (!of) return { ml: 0, grams: 0, missing: [`figures of ${line.name}`] }
  const { volume, inGlass } = of
  if (!volume.known) return { ml: 0, grams: 0, missing: volume.missing }
  if (!(volume.value >= 0)) return { ml: 0, grams: 0, missing: [`room of ${line.name}`] }
  return { ml: volume.value, grams: inGlass.known ? inGlass.value : 0, missing: inGlass.known ? [] : inGlass.missing }
}

function floatingAt(liquidMl: number, liquidGrams: number, iceMl: number): number | null {
  if (!(liquidMl > 0) || !(liquidGrams > 0)) return null
  const under = Math.min(iceMl, (iceMl * ICE_DENSITY * liquidMl) / liquidGrams)
  return liquidMl >= under * GAP_BESIDE_ICE ? liquidMl + under : null
}
