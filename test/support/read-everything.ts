/** Asks every reading task for every id of every café, as an owner would by opening page after page. */
import { readdirSync } from 'node:fs'
import { browserHash } from '@/lib/auth/seat-token'
import type { Db } from '@/lib/db/engine/client'
import { exportColumns, exportPanel, exportScores } from '@/lib/tasks/result/export-panel'
import { exportTrial } from '@/lib/tasks/trial/export-trial'
import { openList } from '@/lib/tasks/pour/open-list'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { readBar } from '@/lib/tasks/bar/read-bar'
import { readBarBatch } from '@/lib/tasks/bar/read-bar-batch'
import { readBarRecipe } from '@/lib/tasks/bar/read-bar-recipe'
import { readBatchRecord } from '@/lib/tasks/bar/read-batch-record'
import { readCooling, readCoolingOnShelf } from '@/lib/tasks/bar/read-cooling'
import { readPackLabel, readPacks, readPacksOf } from '@/lib/tasks/bar/read-packs'
import { readLabel } from '@/lib/tasks/bar/read-label'
import { readAdoptable } from '@/lib/tasks/recipe/read-adoptable'
import { readBuilt } from '@/lib/tasks/trial/read-built'
import { readBenchNotes } from '@/lib/tasks/trial/read-bench-notes'
import { readCard } from '@/lib/tasks/trial/read-card'
import { readBeside } from '@/lib/tasks/recipe/read-beside'
import { readChanges, readLookedChanges } from '@/lib/tasks/recipe/read-changes'
import { readCostLevels } from '@/lib/tasks/recipe/read-cost-levels'
import { readDiary } from '@/lib/tasks/house/read-diary'
import { readDiaryFolds } from '@/lib/tasks/house/read-diary-folds'
import { readFound } from '@/lib/tasks/house/read-found'
import { readHome } from '@/lib/tasks/house/read-home'
import { makeHomeLink } from '@/lib/tasks/home/keep-home-link'
import { readHomeLink } from '@/lib/tasks/home/read-home-link'
import { readHomeSheet } from '@/lib/tasks/home/read-home-sheet'
import { readHomeSheets } from '@/lib/tasks/home/read-home-sheets'
import { chooseHearing, makeHomeSheet } from '@/lib/tasks/home/keep-home-sheet'
import { readIngredient, readVessel as readVesselCard } from '@/lib/tasks/store/read-ingredient'
import { readJoin } from '@/lib/tasks/taste/read-join'
import { readKeptOfMe, readKeptOfSeat, readTasters } from '@/lib/tasks/privacy/read-kept'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readPanelCaffeine } from '@/lib/tasks/plan/read-panel-caffeine'
import { readPanels } from '@/lib/tasks/plan/read-panels'
import { readPaperSeat } from '@/lib/tasks/pour/read-paper-seat'
import { PlanFiguresForm } from '@/lib/forms/plan-figures-form'
import { readPhotos } from '@/lib/tasks/photo/read-photos'
import { readPlanBasis } from '@/lib/tasks/plan/read-plan-basis'
import { readPlanFigures } from '@/lib/tasks/plan/read-plan-figures'
import { readJugFills } from '@/lib/tasks/pour/read-jug-fills'
import { readFillingList, readListHead, readServingList } from '@/lib/tasks/pour/read-pouring-list'
import { readFormula, readFormulaOffer, readFormulaStart } from '@/lib/tasks/store/read-formula'
import { readYields } from '@/lib/tasks/store/read-yields'
import { readBatch, readBatchOffer, readPreparation } from '@/lib/tasks/store/read-preparation'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { readRecipe, readRecipes } from '@/lib/tasks/recipe/read-recipe'
import { readRecipesToTest } from '@/lib/tasks/plan/read-recipes-to-test'
import { readMemory } from '@/lib/tasks/result/read-memory'
import { readReproduced } from '@/lib/tasks/result/read-reproduced'
import { readResult } from '@/lib/tasks/result/read-result'
import { exportJustRight, exportWords } from '@/lib/tasks/result/export-further'
import { readDose } from '@/lib/tasks/result/read-dose'
import { readResultGlasses } from '@/lib/tasks/result/read-result-glasses'
import { readShared } from '@/lib/tasks/result/read-shared'
import { shareResult } from '@/lib/tasks/result/share-result'
import { readMats } from '@/lib/tasks/pour/read-mats'
import { readSign } from '@/lib/tasks/pour/read-sign'
import { readBallots } from '@/lib/tasks/pour/read-ballots'
import { readSeatCards } from '@/lib/tasks/pour/read-seat-cards'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { readSheetOffer } from '@/lib/tasks/trial/read-sheet-offer'
import { readScales } from '@/lib/tasks/store/read-scales'
import { readShelves } from '@/lib/tasks/store/read-shelves'
import { readInstead } from '@/lib/tasks/trial/read-instead'
import { readMake } from '@/lib/tasks/trial/read-make'
import { readSizes } from '@/lib/tasks/trial/read-sizes'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { readVessel } from '@/lib/tasks/store/read-vessel'
import { readTeam } from '@/lib/tasks/team/run-team'
import type { Actor, Reader, World } from '@/lib/tasks/world'

/** Reading tasks named here; the landed test holds the list against the folder. */
export const READ_HERE = [
  'read-adoptable',
  'read-ballots',
  'read-bar',
  'read-bar-batch',
  'read-bar-recipe',
  'read-batch-record',
  'read-bench-notes',
  'read-beside',
  'read-built',
  'read-card',
  'read-changes',
  'read-cooling',
  'read-cost-levels',
  'read-diary',
  'read-diary-folds',
  'read-dose',
  'read-formula',
  'read-found',
  'read-home',
  'read-home-link',
  'read-home-sheet',
  'read-home-sheets',
  'read-ingredient',
  'read-instead',
  'read-join',
  'read-jug-fills',
  'read-kept',
  'read-label',
  'read-make',
  'read-mats',
  'read-memory',
  'read-packs',
  'read-panel',
  'read-panel-caffeine',
  'read-panels',
  'read-paper-seat',
  'read-photos',
  'read-plan-basis',
  'read-plan-figures',
  'read-pouring-list',
  'read-preparation',
  'read-progress',
  'read-recipe',
  'read-recipes-to-test',
  'read-reproduced',
  'read-result',
  'read-result-glasses',
  'read-scales',
  'read-seat-cards',
  'read-seat-state',
  'read-shared',
  'read-sheet-offer',
  'read-shelves',
  'read-sign',
  'read-sizes',
  'read-trial',
  'read-vessel',
  'read-yields',
]

export const readingTasks = () =>
  readdirSync('lib/tasks', { recursive: true, encoding: 'utf8' })
    .filter((file) => /(^|\/)read-[\w-]+\.ts$/.test(file))
    .map((file) => file.replace(/^.*\//, '').replace(/\.ts$/, ''))
    .toSorted()

/** @returns how many readings there were, and each that threw or found nothing where something is */
export async function readEverything(world: World): Promise<{ readings: number; failed: string[] }> {
  const failed: string[] = []
  let readings = 0
  /** @param there  false where null is the right answer (an open panel has no result) */
  const ask = async (what: string, reading: () => Promise<unknown>, there = true) => {
    readings++
    try {
      const found = await reading()
      if ((found === null || found === undefined) === there) failed.push(`${what}: ${there ? 'nothing' : 'something'}`)
    } catch (error) {
      failed.push(`${what}: ${error instanceof Error ? error.message.split('\n')[0] : String(error)}`)
    }
  }
  for (const cafe of await world.db.cafe.findMany()) {
    const membership = await world.db.membership.findFirstOrThrow({
      where: { cafeId: cafe.id, role: 'owner', removedAt: null },
    })
    const reader = { userId: membership.userId, cafeId: cafe.id, cafe }
    const { db } = world
    const where = { cafeId: cafe.id }
    const named = (kind: string, row: { id: string; name?: string; title?: string }) =>
      `${cafe.name}, ${kind} ${row.name ?? row.title ?? row.id}`

    await ask(`${cafe.name}: home`, () => readHome(world, reader, true))
    await ask(`${cafe.name}: home of a pourer`, () => readHome(world, reader, false))
    await ask(`${cafe.name}: panels`, () => readPanels(world, reader, false))
    await ask(`${cafe.name}: recipes`, () => readRecipes(world, reader))
    await ask(`${cafe.name}: recipes to test`, () => readRecipesToTest(world, reader))
    await ask(`${cafe.name}: team`, () => readTeam(world, reader))
    await ask(`${cafe.name}: shelves`, () => readShelves(world, reader, ''))
    await ask(`${cafe.name}: offer for a batch`, () => readBatchOffer(world, reader, null))
    await ask(`${cafe.name}: finding`, () => readFound(world, reader, 'a'))
    await ask(`${cafe.name}: changes`, () => readChanges(world, reader))
    await ask(`${cafe.name}: changes looked at`, () => readLookedChanges(world, reader))
    await ask(`${cafe.name}: diary`, () => readDiary(world, reader, null))
    await ask(`${cafe.name}: diary, folded`, () => readDiaryFolds(world, reader, null))

    await ask(`${cafe.name}: bar`, () => readBar(world, reader, true))
    await ask(`${cafe.name}: bar, for the bar`, () => readBar(world, reader, false))
    await ask(`${cafe.name}: packs`, () => readPacks(world, reader, false))
    for (const one of await db.openedPack.findMany({ where }))
      await ask(named('label of pack', one), () => readPackLabel(world, reader, one.id, true), one.doneAt === null)

    for (const recipe of await db.recipe.findMany({ where })) {
      const settled = (await findHouseRecipe(db, cafe.id, recipe.id)) !== null && recipe.archivedAt === null
      await ask(named('bar, recipe', recipe), () => readBarRecipe(world, reader, recipe.id), settled)
      await ask(named('recipe', recipe), () => readRecipe(world, reader, recipe.id))
      const beside = (await db.trial.findMany({ where: { cafeId: cafe.id, recipeId: recipe.id }, take: 6 })).map(
        ({ id }) => id,
      )
      await ask(named('side by side, of', recipe), () => readBeside(world, reader, recipe.id, beside, true))
      await ask(named('photos of', recipe), () => readPhotos(world, reader, recipe.id))
      await ask(named('adoptable of', recipe), () => readAdoptable(world, reader, recipe.id))
      await ask(named('plan basis of', recipe), () => readPlanBasis(world, reader, recipe.id))
      await ask(named('plan figures of', recipe), () =>
        readPlanFigures(
          world,
          reader,
          PlanFiguresForm.parse({ recipe: recipe.id, cups: '3', seats: '24', difference: '1' }),
        ),
      )
      await ask(named('from home, of', recipe), () => readHomeSheets(world, reader, recipe.id, 1))
      await ask(named('sheet offer of', recipe), () => readSheetOffer(world, reader, recipe.id))
      await ask(named('levels of', recipe), () => readCostLevels(world, reader, recipe.id, null))
    }
    for (const trial of await db.trial.findMany({ where })) {
      await ask(named('trial', trial), () => readTrial(world, reader, trial.id))
      await ask(named('bench notes of', trial), () => readBenchNotes(world, reader, trial.id))
      await ask(named('sheet for home of', trial), () => homeSheetOf(world, reader, trial), trial.archivedAt === null)
      await ask(named('card of', trial), () => readCard(world, reader, trial.id))
      await ask(named('who built', trial), () => readBuilt(world, reader, trial.id))
      await ask(named('many of', trial), () =>
        readMake(world, reader, trial.id, { count: 'glasses', amount: 12, spare: 0.1 }),
      )
      await ask(named('sizes of', trial), () => readSizes(world, reader, trial.id, { ice: 0.3, coffee: null }))
      await ask(named('sizes as kept of', trial), () => readSizes(world, reader, trial.id, null))
      for (const { position } of await db.trialLine.findMany({ where: { ...where, trialId: trial.id } }))
        await ask(named(`instead of line ${position} of`, trial), () =>
          readInstead(world, reader, trial.id, String(position)),
        )
      await ask(named('file of', trial), () => exportTrial(world, reader, trial.id))
      await ask(named('levels of', trial), () => readCostLevels(world, reader, trial.recipeId, trial.id))
    }
    for (const one of await db.ingredient.findMany({ where }))
      await ask(named('ingredient', one), () => readIngredient(world, reader, one.id))
    for (const one of await db.ingredient.findMany({ where }))
      await ask(named('packs of', one), () => readPacksOf(world, reader, one.id))
    await ask('scales', () => readScales(world, reader))
    for (const one of await db.vessel.findMany({ where })) {
      await ask(named('vessel', one), () => readVessel(world, reader, one.id))
      await ask(named('card of vessel', one), () => readVesselCard(world, reader, one.id))
    }
    for (const one of await db.preparation.findMany({ where }))
      await ask(named('preparation', one), () => readPreparation(world, reader, one.id))
    for (const one of await db.preparation.findMany({ where, include: { formulas: true } })) {
      await ask(named('bar, batch of', one), () =>
        readBarBatch(world, reader, one.id, { grams: 500, asLast: false }, true),
      )
      await ask(named('record of a batch of', one), () => readBatchRecord(world, reader, one.id, true, true))
      await ask(named('formula of', one), () => readFormula(world, reader, one.id), one.formulas.length > 0)
      await ask(
        named('start by formula of', one),
        () => readFormulaStart(world, reader, one.id),
        one.formulas.length > 0,
      )
      await ask(named('yields of', one), () => readYields(world, reader, one.id))
      await ask(named('offer for formula of', one), () => readFormulaOffer(world, reader, one.id))
    }
    for (const one of await db.preparation.findMany({ where }))
      await ask(named('cooling of', one), () => readCoolingOnShelf(world, reader, one.id, null))
    for (const one of await db.preparationBatch.findMany({ where })) {
      await ask(named('batch', one), () => readBatch(world, reader, one.id))
      await ask(named('cooling of batch', one), () => readCooling(world, reader, [one.id]))
      await ask(named('label of', one), () => readLabel(world, reader, one.id, true), one.archivedAt === null)
      await ask(named('offer for batch', one), () => readBatchOffer(world, reader, one.id))
    }
    for (const panel of await db.panel.findMany({ where, include: { seats: { include: { taster: true } } } })) {
      const open = panel.stage === 'open'
      const over = panel.stage === 'closed' || panel.stage === 'decided'
      await ask(named('panel', panel), () => readPanel(world, reader, panel.id))
      await ask(named('caffeine of', panel), () => readPanelCaffeine(world, reader, panel.id))
      await ask(named('progress of', panel), () => readProgress(world, reader, panel.id), panel.stage !== 'draft')
      await ask(named('result of', panel), () => readResult(world, reader, panel.id), over)
      await ask(named('glasses of', panel), () => readResultGlasses(world, reader, panel.id), over)
      await ask(
        named('dose of', panel),
        async () => (await readDose(world, reader, panel.id)) ?? 'cups that differ in no one dose',
      )
      await ask(named('recomputing of', panel), () => readReproduced(world, reader, panel.id), over)
      await ask(named('memory of', panel), () => readMemory(world, reader, panel.id), over)
      if (over) await ask(named('link to', panel), () => sharedOf(world, reader, panel.id))
      await ask(named('scores of', panel), () => exportScores(world, reader, panel.id), over)
      await ask(named('columns of', panel), () => exportColumns(world, reader, panel.id), over)
      await ask(named('liking with further questions of', panel), () => exportJustRight(world, reader, panel.id), over)
      await ask(named('words of', panel), () => exportWords(world, reader, panel.id), over)
      await ask(named('file of', panel), () => exportPanel(world, reader, panel.id), over)
      await ask(named('mats of', panel), () => readMats(world, reader, panel.id), open)
      await ask(named('sign of', panel), () => readSign(world, reader, panel.id), open)
      await ask(named('ballots of', panel), () => readBallots(world, reader, panel.id, true), open)
      await ask(named('seat cards of', panel), () => readSeatCards(world, reader, panel.id), open)
      await ask(named('door of', panel), () => readJoin(world, { kind: 'join', token: panel.joinToken }, null))
      for (const list of ['filling', 'serving'] as const) {
        await ask(named(`${list} list of`, panel), () => readListHead(world, reader, panel.id, list), open)
        const opening = open ? await openList(world, reader, panel.id, list) : null
        const reading = list === 'filling' ? readFillingList : readServingList
        if (opening?.ok)
          await ask(named(`${list} list, opened, of`, panel), () => reading(world, reader, panel.id, opening.value))
        if (opening?.ok && list === 'filling')
          await ask(named('jugs of', panel), () => readJugFills(world, reader, panel.id, opening.value, 500, {}))
      }
      await ask(named('tasters of', panel), () => readTasters(world, reader, panel.id))
      for (const seat of panel.seats) {
        const at = named(`seat ${seat.number} of`, panel)
        const sat = seat.taster !== null
        await ask(`${at}, kept`, () => readKeptOfSeat(world, reader, panel.id, seat.number), sat)
        await ask(`${at}, kept, by card`, () => readKeptOfMe(world, { by: 'card', cardToken: seat.cardToken }), sat)
        await ask(at, () => readJoin(world, { kind: 'card', token: seat.cardToken }, null))
        await ask(`${at}, paper`, () => readPaperSeat(world, reader, panel.id, seat.number), open)
        if (seat.takenAt && !seat.onPaper) await ask(`${at}, phone`, () => stateOf(world, db, seat.id))
      }
    }
  }
  return { readings, failed }
}

/** One is made: houses of before gave none out. */
async function homeSheetOf(world: World, reader: Reader, trial: { readonly id: string; readonly recipeId: string }) {
  await chooseHearing(world, reader, true)
  const made = await makeHomeSheet(world, reader, trial.recipeId, trial.id)
  const link = made.ok ? await makeHomeLink(world, reader, made.value.id) : made
  if (!made.ok || !link.ok || !(await readHomeLink(world, link.value))) return null
  return readHomeSheet(world, reader, made.value.id)
}

/** The token of a link is nowhere kept: a new one is made. */
async function sharedOf(world: World, actor: Actor, panelId: string) {
  const made = await shareResult(world, actor, panelId)
  return made.ok ? readShared(world, made.value) : null
}

/** The token of a phone is nowhere kept: the seat is given one that we know. */
async function stateOf(world: World, db: Db, seatId: string) {
  const token = `known-${seatId}`
  await db.seat.update({ where: { id: seatId }, data: { browserHash: browserHash(token) } })
  const state = await readSeatState(world, token)
  return state.ok ? state.value : null
}
