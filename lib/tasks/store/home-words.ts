import 'server-only'
import { plain } from '@/lib/base/number-format'
import type { Db } from '@/lib/db/engine/client'
import { findSpoons } from '@/lib/db/home-sheets'
import { partName } from '@/lib/drink/beside'
import { homeCups, homeMeasure } from '@/lib/drink/home-measure'
import { densityOfPart } from '@/lib/drink/part'
import type { BuildLine, TrialBuild } from '@/lib/drink/trial'
import type { Actor, World } from '../world'

/** Which spoons the house weighed, by what is in them. */
export type Spoons = Awaited<ReturnType<typeof findSpoons>>

/** Household measures of the lines of a sheet, by key of the line; a line that stays in grams alone is not there. */
export type HomeWords = ReadonlyMap<string, string>

const QUARTERS = ['', '¼', '½', '¾']

/** 5.5 → "5½" */
function inQuarters(amount: number): string {
  const whole = Math.floor(amount)
  return `${whole > 0 ? whole : ''}${QUARTERS[Math.round((amount - whole) * 4)] ?? ''}`
}

/** "about 5½ level teaspoons"; null where the house has not weighed that spoon, and below what a spoon can tell. */
export function sayTeaspoons(line: BuildLine, grams: number | null, spoons: Spoons): string | null {
  const weighed = line.preparation ? spoons.preparations : spoons.ingredients
  const measure = grams === null ? null : homeMeasure(grams, weighed.get(partName(line)) ?? null)
  if (!measure) return null
  return `about ${inQuarters(measure.spoons)} level ${measure.spoons > 1 ? 'teaspoons' : 'teaspoon'}`
}

/** Millilitres of what is poured; null of what is not, and where nobody knows its density. */
export function mlOf(line: BuildLine, grams: number | null): number | null {
  const density = line.form === 'liquid' ? densityOfPart(line) : null
  return grams === null || density === null ? null : grams / density
}

/** Spoons, millilitres and cups of each line of these sheets, as far as the house weighed its spoons and knows densities. */
export async function findHomeWords(db: Db, cafeId: string, builds: readonly TrialBuild[]): Promise<HomeWords[]> {
  const spoons = await findSpoons(db, cafeId)
  return builds.map(
    ({ lines }) =>
      new Map(
        lines.flatMap((line) => {
          const words = sayMeasures(line, spoons)
          return words === '' ? [] : [[line.key, words] as const]
        }),
      ),
  )
}

/** The same of one sheet. */
export async function readHomeWords(world: World, { cafeId }: Actor, build: TrialBuild): Promise<HomeWords> {
  const [words] = await findHomeWords(world.db, cafeId, [build])
  return words ?? new Map<string, string>()
}

function sayMeasures(line: BuildLine, spoons: Spoons): string {
  const ml = mlOf(line, line.targetGrams)
  const cups = ml === null ? null : homeCups(ml)
  const assumed = line.densityIsAssumed && line.density !== null ? ` at ${plain(line.density, 3)} g/ml, assumed` : ''
  return [
    sayTeaspoons(line, line.targetGrams, spoons) ?? '',
    ml === null ? '' : `${plain(ml, ml < 10 ? 1 : 0)} ml${assumed}`,
    cups === null ? '' : `about ${inQuarters(cups)} US ${cups > 1 ? 'cups' : 'cup'}`,
  ]
    .filter((words) => words !== '')
    .join('; ')
}
