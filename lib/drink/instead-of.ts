import { sharesFor } from './blend'
import type { Contents } from './contents'
import type { Tally } from './figure'

/** The figures by which one thing is near another. */
export const COMPARED = ['fat', 'sugars', 'solids', 'protein'] as const

/** One of them. */
export type Compared = (typeof COMPARED)[number]

/** g per 100 g that count as one step of difference: common practice, no source. */
export const TOLERANCE: Readonly<Record<Compared, number>> = { fat: 0.5, sugars: 0.5, solids: 1, protein: 0.5 }

/** g per 100 g of each figure; null where it is not known. */
export type Makeup = Readonly<Record<Compared, number | null>>

/** Something of the store that may stand in. */
export type Candidate = { readonly id: string; readonly makeup: Makeup }

/** A figure that could not be compared, and who does not know it: what is replaced, or parts by id. */
export type NotCompared = { readonly figure: Compared; readonly target: boolean; readonly parts: readonly string[] }

/** What might stand in for something: shares of its mass, together 1. */
export type StandIn = {
  /** of the store, the greatest share first; each above 0 */
  readonly parts: readonly { readonly id: string; readonly share: number }[]
  /** share of plain water beside them, 0 or more */
  readonly water: number
  /** g per 100 g: this less what it stands for; null where it could not be compared */
  readonly differences: Makeup
  readonly notCompared: readonly NotCompared[]
  /** root of the summed squares of difference / tolerance, over the figures compared */
  readonly misfit: number
}

/** What may be asked of it. */
export type Wish = {
  /** may plain water be added? */
  readonly water: boolean
  /** misfit that one thing more to weigh has to be worth */
  readonly gain?: number
}

/** Nearest first; how many parts were blended at most; and ids with nothing known that could be compared. */
export type StandIns = {
  readonly standIns: readonly StandIn[]
  readonly blendedUpTo: number
  readonly unlike: readonly string[]
}

/** A quarter of one tolerance: less than that is no reason to weigh one thing more. Common practice, no source. */
const GAIN = 0.25

/** Blends are counted out, so a long shelf is blended by fewer: [at most so many things, parts]. */
const BLENDED: readonly (readonly [things: number, parts: number])[] = [
  [24, 3],
  [150, 2],
]

/**
 * What has 100 g of it of each figure?
 *
 *     figure = 100 · its grams / grams;   solids = 100 − water
 *
 * @param contents  of any amount
 */
export function makeupOf({ grams, fat, sugars, water, protein }: Contents): Makeup {
  const per100 = (part: Tally) =>
    part.missing.length > 0 || grams.missing.length > 0 ? null : (100 * part.total) / grams.total
  const wet = per100(water)
  return { fat: per100(fat), sugars: per100(sugars), solids: wet === null ? null : 100 - wet, protein: per100(protein) }
}

/**
 * What can stand in, alone or blended of two or three?
 *
 *     min √Σ ((Σ xⱼ·aⱼ − t)/tolerance)²  over  xⱼ ≥ 0, Σ xⱼ + water = 1
 *
 * The mass that is replaced stays, and solids are what is not water: so where solids are met, water is too, and plain water is
 * one more part, of nothing. Each choice of parts is solved as if shares could be anything and kept where all are above 0; the
 * best of a blend with some share 0 is found among the choices with fewer parts. That is exact, and ends.
 *
 * @param target      what is replaced, per 100 g
 * @param candidates  each id once
 * @returns           every single thing, and each blend whose misfit is by `gain` less than that of anything that takes fewer
 *                    things to weigh and compares as much. What compares most figures first, then by misfit
 *
 * Source   least squares with shares not negative, every active set tried; tolerances common practice, no source
 * Checked  test/reference/instead-of.test.ts (R, quadprog), test/unit/drink/instead-of.test.ts
 * Limits   Nothing here tastes: sourness, aroma, thickness, colour and what heat does to it are not compared. A blend with as
 *          many parts as figures compared meets them all and proves little. More mass than was replaced is never proposed.
 */
export function insteadOf(target: Makeup, candidates: readonly Candidate[], { water, gain = GAIN }: Wish): StandIns {
  const unlike = candidates.filter((one) => comparedIn(target, [one]).length === 0)
  const alike = candidates.filter((one) => !unlike.includes(one))
  const blendedUpTo = BLENDED.find(([things]) => alike.length <= things)?.[1] ?? 1
  const all = choices(alike, blendedUpTo).flatMap((parts) => nearest(target, parts, water, gain) ?? [])
  return { standIns: worthWeighing(all, gain).toSorted(nearestFirst), blendedUpTo, unlike: unlike.map(({ id }) => id) }
}

/** Every choice of one, two, … parts, in the order given. */
function choices<T>(of: readonly T[], most: number): readonly (readonly T[])[] {
  if (most === 0) return []
  return of.flatMap((one, place) => [[one], ...choices(of.slice(place + 1), most - 1).map((more) => [one, ...more])])
}

const comparedIn = (target: Makeup, parts: readonly Candidate[]): readonly Compared[] =>
  COMPARED.filter((figure) => target[figure] !== null && parts.every(({ makeup }) => makeup[figure] !== null))

/** These parts, with water where it brings them nearer by as much as one thing more to weigh has to be worth. */
function nearest(target: Makeup, parts: readonly Candidate[], water: boolean, gain: number): StandIn | null {
  const figures = comparedIn(target, parts)
  if (figures.length === 0) return null
  const scaled = (makeup: Makeup) => figures.map((figure) => (makeup[figure] ?? 0) / TOLERANCE[figure])
  const rows = parts.map(({ makeup }) => scaled(makeup))
  const dry = sharesFor(scaled(target), rows)
  const wet = water ? sharesFor(scaled(target), [...rows, figures.map(() => 0)]) : null
  const [bare, thinned] = [dry, wet].map((shares) =>
    shares?.every((share) => share > 0) ? standIn(target, parts, figures, shares) : null,
  )
  if (!bare || !thinned) return bare ?? thinned ?? null
  return thinned.misfit < bare.misfit - gain ? thinned : bare
}

function standIn(
  target: Makeup,
  parts: readonly Candidate[],
  figures: readonly Compared[],
  shares: readonly number[],
): StandIn {
  const difference = (figure: Compared): number | null => {
    const wanted = target[figure]
    if (!figures.includes(figure) || wanted === null) return null
    return parts.reduce((all, { makeup }, i) => all + (shares[i] ?? 0) * (makeup[figure] ?? 0), -wanted)
  }
  const differences = {
    fat: difference('fat'),
    sugars: difference('sugars'),
    solids: difference('solids'),
    protein: difference('protein'),
  }
  const squares = figures.map((figure) => ((differences[figure] ?? 0) / TOLERANCE[figure]) ** 2)
  return {
    parts: parts.map(({ id }, i) => ({ id, share: shares[i] ?? 0 })).toSorted((a, b) => b.share - a.share),
    water: shares[parts.length] ?? 0,
    differences,
    notCompared: COMPARED.filter((figure) => !figures.includes(figure)).map((figure) => ({
      figure,
      target: target[figure] === null,
      parts: parts.filter(({ makeup }) => makeup[figure] === null).map(({ id }) => id),
    })),
    misfit: Math.sqrt(squares.reduce((all, square) => all + square, 0)),
  }
}

/** Things to weigh; water is half of one, for it needs no buying. */
const toWeigh = ({ parts, water }: StandIn) => parts.length + (water > 0 ? 0.5 : 0)

/** Single things are all kept: a shelf may hold nothing else. */
function worthWeighing(all: readonly StandIn[], gain: number): readonly StandIn[] {
  const sets = new Map<string, { readonly one: StandIn; readonly best: Map<number, number> }>()
  for (const one of all) {
    const set = sets.get(setOf(one)) ?? { one, best: new Map<number, number>() }
    set.best.set(toWeigh(one), Math.min(set.best.get(toWeigh(one)) ?? Infinity, one.misfit))
    sets.set(setOf(one), set)
  }
  return all.filter((one) => {
    if (one.parts.length === 1) return true
    const simpler = [...sets.values()]
      .filter((set) => set.one.notCompared.every(({ figure }) => one.differences[figure] === null))
      .flatMap(({ best }) => [...best].flatMap(([things, misfit]) => (things < toWeigh(one) ? [misfit] : [])))
    return simpler.every((misfit) => one.misfit < misfit - gain)
  })
}

const setOf = ({ notCompared }: StandIn) => notCompared.map(({ figure }) => figure).join(' ')

const nearestFirst = (a: StandIn, b: StandIn) =>
  a.notCompared.length - b.notCompared.length || a.misfit - b.misfit || toWeigh(a) - toWeigh(b) || a.water - b.water

/** Something to weigh in; `id` null is plain water. */
export type WeighedIn = { readonly id: string | null; readonly grams: number }

/**
 * How many grams of each go on a scale?
 *
 *     share · grams to 0.1 g, under 10 g in all to 0.01 g;  the greatest takes what is left, so that the mass stays
 *
 * @param grams  of what is replaced, above 0
 * @returns      the greatest first, water last; null where one of them is too little to be weighed
 *
 * Source   balance of mass; divisions of scales common practice, no source
 * Checked  test/unit/drink/instead-of.test.ts
 */
export function weighedIn(
  { parts, water }: Pick<StandIn, 'parts' | 'water'>,
  grams: number,
): readonly WeighedIn[] | null {
  const perGram = grams < 10 ? 100 : 10
  const all: readonly { readonly id: string | null; readonly share: number }[] =
    water > 0 ? [...parts, { id: null, share: water }] : parts
  const rounded = all.map(({ id, share }) => ({ id, grams: Math.round(share * grams * perGram) / perGram }))
  const greatest = rounded.reduce((a, b) => (b.grams > a.grams ? b : a))
  const others = rounded.reduce((sum, one) => (one === greatest ? sum : sum + one.grams), 0)
  const left = Math.round((grams - others) * 1000) / 1000
  const weighed = rounded.map((one) => (one === greatest ? { ...one, grams: left } : one))
  return weighed.every((one) => one.grams > 0) ? weighed : null
}
