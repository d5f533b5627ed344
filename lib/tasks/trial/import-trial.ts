import 'server-only'
import { withoutPump } from '@/lib/drink/dose'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { Tx } from '@/lib/db/engine/client'
import { addBatch } from '@/lib/db/batches'
import { addAllergenMarks, addIngredient, findIngredientByName } from '@/lib/db/ingredients'
import { findPreparationByName, addPreparation } from '@/lib/db/preparations'
import { findRecipe } from '@/lib/db/recipes'
import { addTrial, type TrialContent } from '@/lib/db/trials'
import type { BuildLine, Preparation, TrialBuild } from '@/lib/drink/trial'
import { written } from '@/lib/drink/figure'
import { methods } from '@/lib/drink/method'
import { ingredientKinds } from '@/lib/forms/ingredient-form'
import { preparationsWithin } from '@/lib/drink/nesting'
import { readTrialFile, type TrialFileReason } from '@/lib/forms/trial-of-file'
import type { Named } from '../store/store-part'
import { firstNotKept } from './keepable-build'
import { milligrams } from './trial-content'
import { noteAct, type Actor, type World } from '../world'

/**
 * Brings a trial file into a recipe as a new draft. An ingredient of the same name is taken as it stands in the store; one
 * that is missing is entered with the file's figures and an unread label, whatever the file says: the label in this hand
 * has not been read. Preparations come as new batches.
 */
export async function importTrial(
  world: World,
  actor: Actor,
  recipeId: string,
  content: string,
): Promise<Result<string, TrialFileReason | 'recipe-gone'>> {
  const read = readTrialFile(content)
  if (!read.ok) return read
  const notKept = firstNotKept(read.value)
  if (notKept) return no('impossible', notKept)
  return inTransaction(world, async (tx) => {
    const recipe = await findRecipe(tx, actor.cafeId, recipeId)
    if (!recipe || recipe.archivedAt) return no('recipe-gone')
    const trial = await contentOf(world, tx, actor, read.value)
    const id = world.id()
    const { cafeId, userId } = actor
    const fresh = {
      id,
      cafeId,
      recipeId,
      parentId: null,
      createdAt: world.now(),
      createdById: userId,
      isDemo: recipe.isDemo,
    }
    const number = await addTrial(tx, fresh, trial)
    await noteAct(world, tx, actor, { act: 'trial-imported', subjectKind: 'trial', subjectId: id, detail: { number } })
    return ok(id)
  })
}

const scaled = (value: number | null | undefined, times: number) => (value == null ? null : Math.round(value * times))

async function contentOf(world: World, tx: Tx, actor: Actor, build: TrialBuild): Promise<TrialContent> {
  const { brew } = build
  const batches = new Map<Preparation, Entered>()
  // The innermost first, each once: a batch poured into several others is one batch.
  for (const preparation of preparationsWithin(build.lines)) {
    batches.set(preparation, await enterBatch(world, tx, actor, preparation, batches))
  }
  const lines: TrialContent['lines'][number][] = []
  for (const line of build.lines) {
    const { kind, preparationId, ...part } = await partOf(world, tx, actor, line, batches)
    // what stands on this house's bottles is not known: presses of another one's pump come as the ml that they gave
    const typed = withoutPump(line)
    lines.push({
      ...part,
      preparationId: line.anyBatch ? preparationId : null,
      id: world.id(),
      role: ingredientKinds.find((role) => role === line.role && role !== line.kind) ?? kind,
      targetMg: milligrams(line.targetGrams),
      typed: String(typed?.amount ?? line.targetGrams),
      unit: typed?.unit ?? 'g',
      microdensity: scaled(typed?.partGrams ?? typed?.density, 1_000_000),
      weighedMg: scaled(line.weighedGrams, 1000),
      toleranceMg: scaled(line.toleranceGrams, 1000),
      temperatureDeciC: scaled(line.temperature, 10),
      grind: line.grind,
    })
  }
  const known =
    methods.find((method) => method.words === brew?.method) ??
    methods.find((method) => method.brewing === (brew?.brewing ?? null))
  return {
    trial: {
      name: build.name.slice(0, 80),
      method: known?.id ?? 'prepared',
      ratioKind: brew?.ratioKind ?? null,
      ratioMilli: scaled(brew?.ratio, 1000),
      retentionMilli: scaled(brew?.retention, 1000),
      extractionBp: scaled(brew?.extractionPercent, 100),
      strengthBp: scaled(brew?.strengthPercent, 100),
      waterDeciC: scaled(brew?.waterTemperature, 10),
      brewSeconds: scaled(brew?.seconds, 1),
      coffeeDeciC: scaled(build.coffeeTemperature, 10),
      iceDeciC: scaled(build.iceTemperature, 10),
    },
    lines,
    steps: [],
  }
}

/** A batch that came with the file, of which preparation of this house. */
interface Entered {
  readonly batchId: string
  readonly preparationId: string
}

const NO_BATCH = { batchId: null, preparationId: null }

/** What a line is made of here, and what that is: of an ingredient what the store says, not the file. */
type PartHere = Named & { readonly kind: string }

async function partOf(
  world: World,
  tx: Tx,
  actor: Actor,
  line: BuildLine,
  batches: ReadonlyMap<Preparation, Entered>,
): Promise<PartHere> {
  const entered = line.preparation && batches.get(line.preparation)
  if (entered) return { ingredientId: null, ...entered, kind: line.kind }
  const there = await findIngredientByName(tx, actor.cafeId, line.name)
  if (there) return { ingredientId: there.id, ...NO_BATCH, kind: there.kind }
  return { ingredientId: await enterFromFile(world, tx, actor, line), ...NO_BATCH, kind: line.kind }
}

async function enterFromFile(world: World, tx: Tx, actor: Actor, line: BuildLine): Promise<string> {
  const id = world.id()
  const { composition } = line
  await addIngredient(tx, {
    id,
    cafeId: actor.cafeId,
    name: line.name,
    kind: line.kind,
    form: line.form,
    microdensity: scaled(line.density, 1_000_000),
    densityIsAssumed: line.densityIsAssumed === true,
    alcoholBp: scaled(line.alcoholPercent, 100),
    sugarsMg: scaled(composition?.sugars, 1000),
    freeSugarsMg: scaled(composition?.freeSugars, 1000),
    fatMg: scaled(composition?.fat, 1000),
    proteinMg: scaled(composition?.protein, 1000),
    energyDecikcal: scaled(composition?.energyKcal, 10),
    waterMg: scaled(composition?.water, 1000),
    solidsMg: scaled(composition?.coffeeSolids, 1000),
    caffeineLowMg100g: scaled(composition?.caffeineLow, 10),
    caffeineHighMg100g: scaled(composition?.caffeineHigh, 10),
    sweetnessPercent: scaled(composition?.sweetness, 1),
    isMilkOrPlantDrink: line.kind === 'milk',
    figuresSource: 'a trial file',
    figuresDate: world.now(),
    createdAt: world.now(),
  })
  await addAllergenMarks(
    tx,
    Object.entries(line.allergens).flatMap(([allergen, state]) =>
      state === 'not-named' ? [] : [{ id: world.id(), cafeId: actor.cafeId, ingredientId: id, allergen, state }],
    ),
  )
  await noteAct(world, tx, actor, {
    act: 'ingredient-added',
    subjectKind: 'ingredient',
    subjectId: id,
    detail: { name: line.name },
  })
  return id
}

/** A batch has no field for them: what its brew says of water and time is kept as words. */
function brewNote({ brew }: Preparation): string[] {
  const at = brew?.waterTemperature == null ? '' : ` at ${brew.waterTemperature} °C`
  const time = brew?.seconds == null ? '' : ` for ${written(brew.seconds / 60)} min`
  return at + time === '' ? [] : [`Brewed${at}${time}.`]
}

async function enterBatch(
  world: World,
  tx: Tx,
  actor: Actor,
  preparation: Preparation,
  batches: ReadonlyMap<Preparation, Entered>,
): Promise<Entered> {
  const { cafeId } = actor
  const inputs = []
  for (const line of preparation.inputs) {
    const { ingredientId, batchId } = await partOf(world, tx, actor, line, batches)
    const amountMg = milligrams(line.targetGrams)
    inputs.push({
      id: world.id(),
      ingredientId,
      inputBatchId: batchId,
      amountMg,
      typed: String(line.targetGrams),
      unit: 'g',
      isStrainedOut: line.strainedOut === true,
    })
  }
  const there = await findPreparationByName(tx, cafeId, preparation.name)
  const preparationId = there?.id ?? world.id()
  if (!there) {
    const brew = preparation.brew?.brewing === 'percolation' ? 'percolation-brew' : 'immersion-brew'
    const kinds = { brew, syrup: 'syrup', infusion: 'infusion', mix: 'other' } as const
    const kind = kinds[preparation.kind]
    const storageDeciC = scaled(preparation.storageTemperature, 10)
    await addPreparation(tx, {
      id: preparationId,
      cafeId,
      name: preparation.name,
      kind,
      storageDeciC,
      createdAt: world.now(),
    })
  }
  const id = world.id()
  const batch = {
    id,
    cafeId,
    preparationId,
    outputMg: scaled(preparation.outputGrams, 1000),
    brixHundredths: scaled(preparation.brixMeasured, 100),
    microdensity: scaled(preparation.densityMeasured, 1_000_000),
    solidsHundredths: scaled(preparation.brew?.strengthPercent, 100),
    retentionMilli: scaled(preparation.brew?.retention ?? preparation.retention, 1000),
    note: ['From a trial file.', ...brewNote(preparation)].join(' '),
    createdAt: world.now(),
  }
  const number = await addBatch(tx, batch, inputs)
  await noteAct(world, tx, actor, {
    act: 'batch-recorded',
    subjectKind: 'batch',
    subjectId: id,
    detail: { preparation: preparation.name, number },
  })
  return { batchId: id, preparationId }
}
