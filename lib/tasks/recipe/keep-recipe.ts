import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addDecision, addRecipe, changeRecipe, findRecipe, findRecipeByName } from '@/lib/db/recipes'
import { findTrial } from '@/lib/db/trials'
import type { Currency } from '@/lib/forms/fields'
import type { RecipeMoney, RecipeSent } from '@/lib/forms/recipe-form'
import { evidenceOfGlass } from '../result/decision-evidence'
import { glassOf } from '../result/read-result-glasses'
import { freezeTrial } from '../trial/freeze-trial'
import { isStale, recipeMoneyMark, recipeWordsMark, type OpenedWith } from '../opened-with'
import { refuseToMend } from '../trial/to-mend'
import { partsNamedIn, readStore } from '../store/reach-store'
import { stillCountsIn } from '../store/still-counts-in'
import { noteAct, type Actor, type Reader, type World } from '../world'

/** @param isDemo  invented, for looking around; its trials and panels inherit the mark */
export async function startRecipe(
  world: World,
  actor: Actor,
  sent: RecipeSent,
  isDemo = false,
): Promise<Result<string, 'name-taken'>> {
  return inTransaction(world, async (tx) => {
    if (await findRecipeByName(tx, actor.cafeId, sent.name)) return no('name-taken')
    const id = world.id()
    const note = sent.note ?? null
    await addRecipe(tx, { id, cafeId: actor.cafeId, name: sent.name, note, isDemo, createdAt: world.now() })
    await noteAct(world, tx, actor, {
      act: 'recipe-started',
      subjectKind: 'recipe',
      subjectId: id,
      detail: { name: sent.name },
    })
    return ok(id)
  })
}

/** What a recipe is called, and what is said of it. */
export async function changeRecipeWords(
  world: World,
  actor: Actor,
  recipeId: string,
  sent: RecipeSent,
  opened: OpenedWith | null,
): Promise<Result<null, 'gone' | 'name-taken' | 'saved-elsewhere'>> {
  return inTransaction(world, async (tx) => {
    const before = await findRecipe(tx, actor.cafeId, recipeId)
    if (!before) return no('gone')
    if (isStale(opened, recipeWordsMark(before))) return no('saved-elsewhere')
    const named = await findRecipeByName(tx, actor.cafeId, sent.name)
    if (named && named.id !== recipeId) return no('name-taken')
    await changeRecipe(tx, actor.cafeId, recipeId, { name: sent.name, note: sent.note ?? null })
    const about = { subjectKind: 'recipe', subjectId: recipeId }
    if (sent.name === before.name) await noteAct(world, tx, actor, { act: 'recipe-described', ...about })
    else {
      const detail = { from: before.name, to: sent.name }
      await noteAct(world, tx, actor, { act: 'recipe-renamed', ...about, detail })
    }
    return ok(null)
  })
}

/** What the drink sells for: menu price, tax inside it, wanted cost share, waste, packaging. */
export async function changeRecipeMoney(
  world: World,
  actor: Actor & { readonly cafe: Currency },
  recipeId: string,
  sent: RecipeMoney,
  opened: OpenedWith | null,
): Promise<Result<null, 'gone' | 'currency-changed' | 'saved-elsewhere'>> {
  const minor = 10 ** actor.cafe.currencyDigits
  const scaled = (value: number | undefined, times: number) => (value === undefined ? null : Math.round(value * times))
  return inTransaction(world, async (tx) => {
    if (!(await stillCountsIn(tx, actor))) return no('currency-changed')
    const before = await findRecipe(tx, actor.cafeId, recipeId)
    if (!before) return no('gone')
    if (isStale(opened, recipeMoneyMark(before, actor.cafe))) return no('saved-elsewhere')
    await changeRecipe(tx, actor.cafeId, recipeId, {
      priceMinor: scaled(sent.price, minor),
      taxBp: scaled(sent.tax, 100),
      targetCostBp: scaled(sent.targetCost, 100),
      wasteBp: scaled(sent.waste, 100) ?? 0,
      packMinor: scaled(sent.packaging, minor) ?? 0,
      fixedMinor: scaled(sent.fixed, minor),
      roomDeciC: scaled(sent.room, 10),
    })
    await noteAct(world, tx, actor, { act: 'recipe-money-changed', subjectKind: 'recipe', subjectId: recipeId })
    return ok(null)
  })
}

/** Puts a recipe aside, or takes it up again: what was made of it stays to be read. */
export async function archiveRecipe(
  world: World,
  actor: Actor,
  recipeId: string,
  archived: boolean,
): Promise<Result<null, 'gone'>> {
  return inTransaction(world, async (tx) => {
    if (!(await findRecipe(tx, actor.cafeId, recipeId))) return no('gone')
    await changeRecipe(tx, actor.cafeId, recipeId, { archivedAt: archived ? world.now() : null })
    await noteAct(world, tx, actor, {
      act: archived ? 'recipe-put-aside' : 'recipe-taken-up',
      subjectKind: 'recipe',
      subjectId: recipeId,
    })
    return ok(null)
  })
}

/** Adopts a trial without a panel, and says so: for a drink that is already on the menu. The trial is frozen by it. */
export async function adoptWithoutPanel(
  world: World,
  actor: Reader,
  recipeId: string,
  sent: { readonly trialId: string; readonly reason: string },
): Promise<Result<number, 'gone' | 'cannot-be-worked-out'>> {
  return inTransaction(world, async (tx) => {
    const trial = await findTrial(tx, actor.cafeId, sent.trialId)
    if (!trial || trial.recipeId !== recipeId) return no('gone')
    const toMend = await refuseToMend(tx, actor.cafeId, world.now(), [trial.id])
    if (toMend) return toMend
    await freezeTrial(tx, world, trial.id)
    const store = await readStore(tx, actor.cafeId, world.now(), partsNamedIn([trial]))
    const frozen = (await findTrial(tx, actor.cafeId, trial.id)) ?? trial
    const evidence = evidenceOfGlass(trial, glassOf(frozen, store, actor.cafe), actor.cafe.currency)
    const version = await addDecision(tx, {
      id: world.id(),
      cafeId: actor.cafeId,
      recipeId,
      panelId: null,
      kind: 'adopt',
      trialId: trial.id,
      reason: sent.reason,
      evidence: JSON.stringify(evidence),
      at: world.now(),
      byId: actor.userId,
    })
    await noteAct(world, tx, actor, {
      act: 'house-recipe-adopted',
      subjectKind: 'recipe',
      subjectId: recipeId,
      detail: { version, trial: trial.number, withPanel: false },
    })
    return ok(version ?? 0)
  })
}
