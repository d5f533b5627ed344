/** A house of years: every reading of a page answers, whatever has gathered. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { exportTrial } from '@/lib/tasks/trial/export-trial'
import { foundDemoHouse } from '@/lib/tasks/house/found-demo-house'
import { freezeTrial } from '@/lib/tasks/trial/freeze-trial'
import { findTrial } from '@/lib/db/trials'
import { branchTrial } from '@/lib/tasks/trial/branch-trial'
import { readComparison } from '@/lib/tasks/trial/compare-trials'
import { readCard } from '@/lib/tasks/trial/read-card'
import { readCostLevels } from '@/lib/tasks/recipe/read-cost-levels'
import { readDiary } from '@/lib/tasks/house/read-diary'
import { readDiaryFolds } from '@/lib/tasks/house/read-diary-folds'
import { readHome } from '@/lib/tasks/house/read-home'
import { readIngredient } from '@/lib/tasks/store/read-ingredient'
import { readJoin } from '@/lib/tasks/taste/read-join'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readPanelCaffeine } from '@/lib/tasks/plan/read-panel-caffeine'
import { readPanels } from '@/lib/tasks/plan/read-panels'
import { readPlanBasis } from '@/lib/tasks/plan/read-plan-basis'
import { readBatch, readBatchesOf, readBatchOffer, readPreparation } from '@/lib/tasks/store/read-preparation'
import { readRecipe, readRecipes } from '@/lib/tasks/recipe/read-recipe'
import { readRecipesToTest } from '@/lib/tasks/plan/read-recipes-to-test'
import { readResult } from '@/lib/tasks/result/read-result'
import { readSheetOffer } from '@/lib/tasks/trial/read-sheet-offer'
import { readShelves } from '@/lib/tasks/store/read-shelves'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { partsNamedIn, readStore } from '@/lib/tasks/store/reach-store'
import { worldOf, type World } from '@/lib/tasks/world'
import { freshDatabase, type FreshDatabase } from '@/test/support/fresh-database'
import { layBatches, layEverything } from '@/test/support/long-history'

let fresh: FreshDatabase
let world: World
let reader: { userId: string; cafeId: string; cafe: { currency: string; currencyDigits: number; allergenList: string } }
const ids = {
  recipe: '',
  trial: '',
  draft: '',
  open: '',
  joinToken: '',
  closed: '',
  batch: '',
  preparation: '',
  ingredient: '',
}

beforeAll(async () => {
  fresh = await freshDatabase()
  world = worldOf(fresh.db)
  await foundDemoHouse(world)
  const { userId, cafeId } = await fresh.db.membership.findFirstOrThrow()
  reader = { userId, cafeId, cafe: { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' } }
  const trials = await fresh.db.trial.findMany({
    where: { recipe: { name: 'Iced date-cardamom coffee' } },
    orderBy: { number: 'asc' },
  })
  const [closed, open] = [await panelAt('decided'), await panelAt('open')]
  const batch = await fresh.db.trialLine.findFirstOrThrow({ where: { trialId: trials[1]?.id, batchId: { not: null } } })
  const branched = await branchTrial(world, reader, trials[1]?.id ?? '', 'A draft of today')
  if (!branched.ok) throw new Error(branched.reason)
  Object.assign(ids, {
    recipe: trials[0]?.recipeId,
    trial: trials[1]?.id,
    draft: branched.value,
    closed: closed.id,
    open: open.id,
    joinToken: open.joinToken,
    batch: batch.batchId,
    preparation: (await fresh.db.preparationBatch.findUniqueOrThrow({ where: { id: batch.batchId ?? '' } }))
      .preparationId,
    ingredient: (await fresh.db.ingredient.findFirstOrThrow({ orderBy: { name: 'desc' } })).id,
  })
})
afterAll(() => fresh.close())

const panelAt = (stage: string) => fresh.db.panel.findFirstOrThrow({ where: { stage }, orderBy: { createdAt: 'desc' } })

const pages: readonly [string, () => Promise<unknown>][] = [
  ['home', () => readHome(world, reader, true)],
  ['recipes', () => readRecipes(world, reader)],
  ['a recipe and its why', () => readRecipe(world, reader, ids.recipe)],
  ['its levels', () => readCostLevels(world, reader, ids.recipe, null)],
  ['a trial', () => readTrial(world, reader, ids.trial)],
  ['its card and scale', () => readCard(world, reader, ids.trial)],
  ['its file', () => exportTrial(world, reader, ids.trial)],
  ['its comparison', () => readComparison(world, reader, ids.trial, ids.draft)],
  ['a sheet being typed', () => readSheetOffer(world, reader, ids.recipe)],
  ['the store', () => readShelves(world, reader, '')],
  ['a preparation', () => readPreparation(world, reader, ids.preparation)],
  ['its batches', () => readBatchesOf(world, reader, ids.preparation, null)],
  ['a batch', () => readBatch(world, reader, ids.batch)],
  ['a batch being typed', () => readBatchOffer(world, reader, null)],
  ['an ingredient', () => readIngredient(world, reader, ids.ingredient)],
  ['panels', () => readPanels(world, reader, false)],
  ['a panel being planned', () => readPlanBasis(world, reader, ids.recipe)],
  ['the choice of what to test', () => readRecipesToTest(world, reader)],
  ['a running panel', () => readPanel(world, reader, ids.open)],
  ['its caffeine', () => readPanelCaffeine(world, reader, ids.open)],
  ['a taster’s door', () => readJoin(world, { kind: 'join', token: ids.joinToken }, null)],
  ['a closed panel', () => readPanel(world, reader, ids.closed)],
  ['its result', () => readResult(world, reader, ids.closed)],
  ['the diary', () => readDiaryFolds(world, reader, null)],
  ['the diary line by line', () => readDiary(world, reader, null)],
]

describe.each([
  ['1 500 batches', 0, 1500],
  ['10 000 batches', 1500, 10_000],
] as const)('with %s', (_, from, to) => {
  beforeAll(async () => {
    await layBatches(fresh.db, reader.cafeId, from, to)
  })

  test.each(pages)('%s answers', async (_name, read) => {
    const found = await read()
    expect(found).not.toBeNull()
    expect(found).not.toMatchObject({ ok: false })
  })

  test('a trial is frozen', async () => {
    const branched = await branchTrial(world, reader, ids.trial, `Frozen among ${to}`)
    if (!branched.ok) throw new Error(branched.reason)
    expect(await world.db.$transaction((tx) => freezeTrial(tx, world, branched.value))).toBe(true)
  })
})

describe('among 10 000 batches', () => {
  test('a trial reads its own and none other', async () => {
    const trial = await findTrial(fresh.db, reader.cafeId, ids.trial)
    if (!trial) throw new Error('the trial is there')
    const store = await readStore(fresh.db, reader.cafeId, world.now(), partsNamedIn([trial]))
    expect([...store.keys()].filter((ref) => ref.startsWith('batch:long-'))).toEqual([])
    expect(store.has(`batch:${ids.batch}`)).toBe(true)
  })

  test('the newest of each preparation are offered; an old one only to the sheet that has it already', async () => {
    const offered = async (trialId: string | null) => {
      const trial = trialId && (await findTrial(fresh.db, reader.cafeId, trialId))
      const { parts } = await readSheetOffer(world, reader, ids.recipe, trial || null)
      return parts.map(({ ref }) => ref).filter((ref) => ref.startsWith('batch:long-'))
    }
    // Thirty stand on the shelf, the newest ten of each of three preparations.
    const newest = Array.from({ length: 30 }, (_, place) => `batch:long-${9970 + place}`).sort()
    expect((await offered(null)).sort()).toEqual(newest)
    await fresh.db.trialLine.updateMany({
      where: { trialId: ids.draft, position: 1 },
      data: { batchId: 'long-7', ingredientId: null },
    })
    expect((await offered(ids.draft)).sort()).toEqual([...newest, 'batch:long-7'].sort())
    expect((await offered(null)).sort()).toEqual(newest)
    const sheet = await readTrial(world, reader, ids.draft)
    expect(sheet?.build.lines[0]?.name).toContain('Long kept')
  })

  test('of what an ingredient stands in the newest fifty are named and the rest counted', async () => {
    const card = await readIngredient(world, reader, ids.ingredient)
    expect(card?.uses.batches).toHaveLength(50)
    const inputs = await fresh.db.batchInput.findMany({ where: { ingredientId: ids.ingredient } })
    const trials = card?.uses.trials.length ?? 0
    expect((card?.uses.more ?? 0) + 50 + trials).toBe(new Set(inputs.map(({ batchId }) => batchId)).size + trials)
  })

  test('the batches of a preparation come fifty to a page, and none twice', async () => {
    const seen: number[] = []
    let before: number | null = null
    do {
      const page: Awaited<ReturnType<typeof readBatchesOf>> = await readBatchesOf(world, reader, 'long-other', before)
      seen.push(...page.batches.map(({ number }) => number))
      before = page.earlier
    } while (before !== null)
    // Every third of 10 000, the last of each three: 3 333 of them.
    expect(seen).toEqual(Array.from({ length: 3333 }, (_, place) => 3333 - place))
  })
})

describe('with 1 100 of everything else as well', () => {
  beforeAll(async () => {
    await layEverything(fresh.db, reader.cafeId, ids.recipe, 1100)
  })

  test.each(pages)('%s answers', async (_name, read) => {
    expect(await read()).not.toBeNull()
  })
})
