import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { LineForm } from '@/lib/drink/trial'
import { findMethod } from '@/lib/drink/method'
import { findRecipe } from '@/lib/db/recipes'
import { addTrial, changeTrialContent, findTrial, isDraftTrial } from '@/lib/db/trials'
import { doseGrams, isNew, waterGrams, type FirstTrial, type TrialSent } from '@/lib/forms/trial-form'
import { isStale, trialMark, type OpenedWith } from '../opened-with'
import { trialContent, type ContentRefusal } from './trial-content'
import { readLineOffer, readStore } from '../store/reach-store'
import type { Store } from '../store/store-part'
import { noteAct, type World } from '../world'
import type { Cook } from './made-in-passing'

/** Writes a new trial of a recipe. @returns its id */
export async function recordTrial(
  world: World,
  actor: Cook,
  recipeId: string,
  sheet: TrialSent,
): Promise<Result<string, ContentRefusal | 'recipe-gone'>> {
  return inTransaction(world, async (tx) => {
    const recipe = await findRecipe(tx, actor.cafeId, recipeId)
    if (!recipe || recipe.archivedAt) return no('recipe-gone')
    const store = await readStore(tx, actor.cafeId, world.now(), partsSent(sheet))
    const content = await trialContent(world, tx, actor, { recipeId, sheet, store })
    if (!content.ok) return content
    const id = world.id()
    const number = await addTrial(
      tx,
      {
        id,
        cafeId: actor.cafeId,
        recipeId,
        parentId: null,
        createdAt: world.now(),
        createdById: actor.userId,
        isDemo: recipe.isDemo,
      },
      content.value,
    )
    await noteAct(world, tx, actor, { act: 'trial-recorded', subjectKind: 'trial', subjectId: id, detail: { number } })
    return ok(id)
  })
}

/** Changes a draft. A trial that was poured in a panel is never changed: make another from it. */
export async function changeTrial(
  world: World,
  actor: Cook,
  trialId: string,
  sheet: TrialSent,
  opened: OpenedWith | null,
): Promise<Result<null, ContentRefusal | 'frozen' | 'saved-elsewhere'>> {
  return inTransaction(world, async (tx) => {
    const before = await findTrial(tx, actor.cafeId, trialId)
    if (!before || !(await isDraftTrial(tx, actor.cafeId, trialId))) return no('frozen')
    if (isStale(opened, trialMark(before))) return no('saved-elsewhere')
    const store = await readStore(tx, actor.cafeId, world.now(), partsSent(sheet))
    const content = await trialContent(world, tx, actor, {
      recipeId: before.recipeId,
      sheet,
      store,
      before: before.lines,
    })
    if (!content.ok) return content
    await changeTrialContent(tx, actor.cafeId, trialId, content.value)
    await noteAct(world, tx, actor, { act: 'trial-changed', subjectKind: 'trial', subjectId: trialId })
    return ok(null)
  })
}

const partsSent = (sheet: TrialSent) => sheet.lines.map(({ part }) => part)

/** The few fields of a first trial, as the whole sheet would hold them. */
function sheetOfFirstTrial(first: FirstTrial, store: Store): TrialSent {
  const brewing = findMethod(first.method)?.brewing ?? null
  const lines = [...first.lines]
  if (first.ice) {
    const ice = [...store.values()].find((part) => !part.archived && part.kind === 'ice' && part.form === 'ice')
    const what = ice ? { part: ice.ref } : ({ part: 'new', newName: 'Ice', newKind: 'ice', newForm: 'ice' } as const)
    lines.push({ ...what, amount: first.ice, unit: first.iceUnit, grind: undefined, note: undefined })
  }
  const [dose, water] = [doseGrams(first), waterGrams(first)]
  const ratio = dose !== null && water !== null && brewing ? water / dose : null
  return {
    name: first.name,
    method: first.method,
    ratioKind: ratio === null ? undefined : brewing === 'espresso' ? 'beverage-out' : 'water-in',
    ratio: ratio === null ? undefined : { value: ratio, typed: String(ratio) },
    retention: undefined,
    extraction: undefined,
    strength: undefined,
    vesselId: undefined,
    waterTemperature: undefined,
    brewMinutes: undefined,
    coffeeTemperature: undefined,
    iceTemperature: undefined,
    iceIsWet: undefined,
    costLevelId: undefined,
    partGrams: undefined,
    lines,
    steps: [],
  }
}

export async function recordFirstTrial(
  world: World,
  actor: Cook,
  recipeId: string,
  first: FirstTrial,
): Promise<Result<string, ContentRefusal | 'recipe-gone' | 'coffee-not-for-method'>> {
  const [coffee] = first.lines
  const { store } = await readLineOffer(world.db, actor.cafeId, world.now(), coffee?.part ? [coffee.part] : [])
  const known = store.get(coffee?.part ?? '')
  const form = coffee && isNew(coffee) ? coffee.newForm : known?.kind === 'coffee' ? known.form : undefined
  if (coffee?.amount && form && !canMake(form, first.method)) return no('coffee-not-for-method')
  return recordTrial(world, actor, recipeId, sheetOfFirstTrial(first, store))
}

/** Grounds are brewed, instant coffee dissolves, and what is made already needs no method. */
function canMake(coffee: LineForm, method: string): boolean {
  const brewing = findMethod(method)?.brewing ?? null
  if (brewing === null) return coffee !== 'grounds'
  return coffee === (brewing === 'dissolved' ? 'powder' : 'grounds')
}
