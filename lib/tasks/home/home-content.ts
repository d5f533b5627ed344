import 'server-only'
import * as z from 'zod'
import { computeBuild } from '@/lib/drink/build'
import { makingCautions } from '@/lib/drink/caution'
import { scaleSheet, type ScaleStep } from '@/lib/drink/scale'
import type { BuildLine, Preparation, TrialBuild } from '@/lib/drink/trial'
import { findBatchesWithin } from '@/lib/db/batches'
import { requireCafe } from '@/lib/db/cafes'
import { findSpoons } from '@/lib/db/home-sheets'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import type { HomeSheetContent, HomeWarnings } from '@/lib/forms/home-sheet'
import { mlOf, sayTeaspoons, type Spoons } from '../store/home-words'
import { partsNamedIn } from '../store/reach-store'
import { readTrial, type TrialSheet } from '../trial/read-trial'
import type { Reader, World } from '../world'

/** What a sheet of this trial says today. @returns null where there is no such trial */
export async function homeContentOf(world: World, reader: Reader, trialId: string): Promise<HomeSheetContent | null> {
  const sheet = await readTrial(world, reader, trialId)
  if (!sheet) return null
  const { trial } = sheet
  const [{ name: cafe }, house, made, spoons] = await Promise.all([
    requireCafe(world.db, reader.cafeId),
    findHouseRecipe(world.db, reader.cafeId, trial.recipeId),
    keptOfBatches(world, reader, sheet),
    findSpoons(world.db, reader.cafeId),
  ])
  const build = withoutMoney(sheet.build)
  const frozen = trial.frozenAt !== null
  return {
    kind: 'sipwright-home-sheet',
    form: 1,
    cafe,
    recipe: trial.recipe.name,
    trial: { number: trial.number, name: trial.name },
    standing: !frozen ? 'draft' : sheet.isHouse ? 'house' : 'trial',
    houseVersion: sheet.isHouse ? (house?.version ?? null) : null,
    // nothing is said of a panel that is still open
    tasted: frozen && sheet.panels.some(({ stage }) => stage === 'closed' || stage === 'decided'),
    method: sheet.methodWords,
    vessel: trial.vessel?.name ?? null,
    lines: linesOf(build, spoons),
    steps: trial.steps.map(({ text, seconds }) => ({ text, seconds })),
    made: madeOf(build.lines).map((preparation) => sayMade(preparation, made, spoons)),
    warnings: warningsOf(build),
  }
}

/** Named by preparation and not by batch; what a level is called tells of money, so what stands beside names none. */
function withoutMoney(build: TrialBuild): TrialBuild {
  const { currency } = build.money
  const none = { wasteFraction: null, packagingCost: null, targetCostFraction: null, taxFraction: null }
  return {
    ...build,
    level: null,
    lines: build.lines.map(plainLine),
    beside: build.beside.map(({ line, insteadOf, why }) => ({ line: plainLine(line), insteadOf, why, level: null })),
    money: { currency, ...none, menuPrice: null, fixedCost: null },
  }
}

function plainLine(line: BuildLine): BuildLine {
  const { preparation } = line
  if (!preparation) return { ...line, costPerGram: null }
  return { ...line, name: preparation.name, preparation: { ...preparation, inputs: preparation.inputs.map(plainLine) } }
}

function linesOf(build: TrialBuild, spoons: Spoons): HomeSheetContent['lines'] {
  const { steps } = scaleSheet(build, 1)
  return build.lines.map((line, at) => {
    const step = steps[at]
    const brew = step?.brew ?? null
    const grams = brew ? brew.dose : (step?.add ?? null)
    return {
      name: line.name,
      grams,
      ...(brew ? { ml: null, assumedDensity: null } : mlWithDensity(line, grams)),
      home: sayTeaspoons(line, grams, spoons),
      brew: brew && { ...brewingOf(brew), gives: step?.add ?? null },
      isMade: line.preparation !== null,
    }
  })
}

/** Millilitres, and the density they are by where nobody weighed it. */
function mlWithDensity(line: BuildLine, grams: number | null) {
  const ml = mlOf(line, grams)
  return { ml, assumedDensity: ml !== null && line.densityIsAssumed === true ? line.density : null }
}

const brewingOf = ({ water, grind, waterTemperature, seconds }: NonNullable<ScaleStep['brew']>) => ({
  water,
  grind,
  waterTemperature,
  seconds,
})

/** Every preparation in the glass and inside one another, what goes into another first, each once. */
function madeOf(lines: readonly BuildLine[], found = new Map<string, Preparation>()): readonly Preparation[] {
  for (const { preparation } of lines) {
    if (!preparation || found.has(keyOf(preparation))) continue
    madeOf(preparation.inputs, found)
    found.set(keyOf(preparation), preparation)
  }
  return [...found.values()]
}

const keyOf = ({ name, batch }: Pick<Preparation, 'name' | 'batch'>) => `${batch} ${name}`

interface KeptOfBatch {
  readonly steps: HomeSheetContent['made'][number]['steps']
  readonly keepsHours: number | null
}

const Steps = z.array(z.object({ text: z.string(), minutes: z.number().optional() }))

/** How each batch was made and how long it keeps here: no part of what a drink is worked out from. */
async function keptOfBatches(
  world: World,
  reader: Reader,
  { trial, todays }: TrialSheet,
): Promise<ReadonlyMap<string, KeptOfBatch>> {
  const named = partsNamedIn([trial]).flatMap((ref) => (ref.startsWith('batch:') ? [ref.slice('batch:'.length)] : []))
  const ids = [...named, ...todays.flatMap(({ batch }) => batch?.id ?? [])]
  const rows = await findBatchesWithin(world.db, reader.cafeId, ids)
  return new Map(
    rows.map(({ preparation, number, steps }) => {
      const read = Steps.safeParse(steps === null ? [] : JSON.parse(steps))
      const said = (read.data ?? []).map(({ text, minutes }) => ({ text, minutes: minutes ?? null }))
      const key = keyOf({ name: preparation.name, batch: String(number) })
      return [key, { steps: said, keepsHours: preparation.keepsHours }]
    }),
  )
}

function sayMade(
  preparation: Preparation,
  kept: ReadonlyMap<string, KeptOfBatch>,
  spoons: Spoons,
): HomeSheetContent['made'][number] {
  const { name, inputs, outputGrams, brixMeasured, storageTemperature } = preparation
  const { steps = [], keepsHours = null } = kept.get(keyOf(preparation)) ?? {}
  return {
    name,
    inputs: inputs.map((line) => ({
      name: line.name,
      grams: line.targetGrams,
      ...mlWithDensity(line, line.targetGrams),
      home: sayTeaspoons(line, line.targetGrams, spoons),
      isMade: line.preparation !== null,
      celsius: line.temperature,
    })),
    outputGrams,
    brix: brixMeasured,
    celsius: storageTemperature,
    keepsHours,
    steps: [...steps],
  }
}

function warningsOf(build: TrialBuild): HomeWarnings {
  const { allergens, caffeine, cautions } = computeBuild(build)
  const named = (state: string) => allergens.rows.filter((row) => row.state === state).map((row) => row.name)
  return {
    list: allergens.list,
    contains: named('contains'),
    mayContain: named('may-contain'),
    unread: [...allergens.unread],
    cautions: [...makingCautions(build), ...cautions],
    caffeine: caffeine.known
      ? { known: true, low: caffeine.low, high: caffeine.high }
      : {
          known: false,
          missing: [...caffeine.missing],
          atLeast: caffeine.atLeast ? { ...caffeine.atLeast, of: [...caffeine.atLeast.of] } : null,
        },
  }
}
