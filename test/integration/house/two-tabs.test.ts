/**
 * A form saved from a page that shows what is not there any more undoes nobody: the act says so and writes nothing. For
 * each form that changes what is stored: opened twice, saved from the first, then from the second.
 */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { CafeForm } from '@/lib/forms/account-form'
import { IngredientForm } from '@/lib/forms/ingredient-form'
import { BatchForm, PreparationForm, vesselForm } from '@/lib/forms/preparation-form'
import { recipeMoneyForm, sizePriceForm } from '@/lib/forms/recipe-form'
import { TrialForm } from '@/lib/forms/trial-form'
import { changeCafe } from '@/lib/tasks/house/change-cafe'
import { changePlan } from '@/lib/tasks/plan/change-plan'
import { correctBatch } from '@/lib/tasks/store/keep-batch'
import { chooseAlternatives, markTasted, nameCostLevel } from '@/lib/tasks/recipe/keep-cost-level'
import { correctIngredient } from '@/lib/tasks/store/keep-ingredient'
import { changePreparationNotes } from '@/lib/tasks/store/keep-preparation'
import { changeRecipeMoney } from '@/lib/tasks/recipe/keep-recipe'
import { keepSizePrice } from '@/lib/tasks/recipe/keep-size-price'
import { correctVessel, enterVessel } from '@/lib/tasks/store/keep-vessel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import {
  batchMark,
  cafeMark,
  ingredientMark,
  preparationMark,
  recipeMoneyMark,
  trialMark,
  vesselMark,
  sizePriceMark,
} from '@/lib/tasks/opened-with'
import { readCostLevels } from '@/lib/tasks/recipe/read-cost-levels'
import { readIngredient } from '@/lib/tasks/store/read-ingredient'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readBatch, readPreparation } from '@/lib/tasks/store/read-preparation'
import { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { readVessel } from '@/lib/tasks/store/read-vessel'
import { changeTrial } from '@/lib/tasks/trial/record-trial'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu', timeZone: 'UTC' }
const other = { id: 'other', name: 'Kiosk for tests' }

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())
const keeper = () => ({ ...cafe.owner, cafe: { ...other, ...money } })

interface Form {
  /** the mark of what stands there now, as its page carries it */
  open(): Promise<string>
  /** saves a change: a number or a letter that tells one save from another */
  save(change: string, opened: string): Promise<{ readonly ok: boolean; readonly reason?: string }>
  /** what the change has become */
  stored(): Promise<unknown>
}

const must = <Value>(value: Value | null | undefined): Value => {
  if (value === null || value === undefined) throw new Error('it must be there')
  return value
}

const forms: Record<string, (part: string) => Promise<Form> | Form> = {
  'the sheet of a trial': (part) => {
    const id = must(cafe.trialIds[2])
    const read = async () => must(await readTrial(cafe.world, keeper(), id)).trial
    return {
      open: async () => trialMark(await read()),
      save: (change, opened) => {
        const lines = [{ part, amount: change, unit: 'g', role: 'coffee' }]
        return changeTrial(cafe.world, keeper(), id, TrialForm.parse({ name: 'A', method: 'drip', lines }), opened)
      },
      stored: async () => (await read()).lines[0]?.typed,
    }
  },
  'an ingredient': (part) => {
    const id = part.replace('ingredient:', '')
    const read = async () => must(await readIngredient(cafe.world, keeper(), id)).row
    return {
      open: async () => ingredientMark(await read()),
      save: (change, opened) => {
        const sent = IngredientForm.parse({ name: 'Beans', kind: 'coffee', form: 'grounds', fat: change })
        return correctIngredient(cafe.world, cafe.owner, id, sent, opened)
      },
      stored: async () => String(must((await read()).fatMg) / 1000),
    }
  },
  'a preparation': async () => {
    const { preparationId: id } = await cafe.db.preparationBatch.findFirstOrThrow()
    const read = async () => must(await readPreparation(cafe.world, keeper(), id))
    return {
      open: async () => preparationMark(await read()),
      save: (change, opened) => {
        const sent = PreparationForm.parse({ name: 'Base', kind: 'syrup', keepsHours: change })
        return changePreparationNotes(cafe.world, cafe.owner, id, sent, opened)
      },
      stored: async () => String((await read()).keepsHours),
    }
  },
  'a batch': (part) => {
    const id = must(cafe.batchIds[0])
    const read = async () => must(await readBatch(cafe.world, keeper(), id)).row
    return {
      open: async () => batchMark(await read()),
      save: (change, opened) =>
        correctBatch(cafe.world, keeper(), id, BatchForm.parse({ inputs: [{ part, amount: change }] }), opened),
      stored: async () => (await read()).inputs[0]?.typed,
    }
  },
  'a vessel': async () => {
    const entered = await enterVessel(cafe.world, keeper(), vesselForm(money).parse({ name: 'Glass', brim: '300' }))
    if (!entered.ok) throw new Error(entered.reason)
    const read = async () => must(await readVessel(cafe.world, keeper(), entered.value))
    return {
      open: async () => vesselMark(await read(), money),
      save: (change, opened) => {
        const sent = vesselForm(money).parse({ name: 'Glass', brim: '300', fill: change })
        return correctVessel(cafe.world, keeper(), entered.value, sent, opened)
      },
      stored: async () => String(must((await read()).fillUl) / 1000),
    }
  },
  'the price of a recipe': () => {
    const read = async () => must(await readRecipe(cafe.world, keeper(), cafe.recipeId)).recipe
    return {
      open: async () => recipeMoneyMark(await read(), money),
      save: (change, opened) => {
        const sent = recipeMoneyForm(money).parse({ price: change })
        return changeRecipeMoney(cafe.world, keeper(), cafe.recipeId, sent, opened)
      },
      stored: async () => String(must((await read()).priceMinor) / 100),
    }
  },
  'the price of a size': async () => {
    const entered = await enterVessel(cafe.world, keeper(), vesselForm(money).parse({ name: 'Glass', brim: '300' }))
    if (!entered.ok) throw new Error(entered.reason)
    const of = { recipeId: cafe.recipeId, vesselId: entered.value }
    const read = async () => (await cafe.db.sizePrice.findFirst())?.priceMinor ?? null
    return {
      open: async () => sizePriceMark(await read(), money),
      save: (change, opened) =>
        keepSizePrice(cafe.world, keeper(), of, sizePriceForm(money).parse({ price: change }), opened),
      stored: async () => String(must(await read()) / 100),
    }
  },
  'the plan of a panel': async () => {
    const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan())
    if (!planned.ok) throw new Error(planned.reason)
    const read = async () => must(await readPanel(cafe.world, cafe.owner, planned.value))
    return {
      open: async () => (await read()).mark,
      save: (change, opened) =>
        changePlan(cafe.world, cafe.owner, planned.value, cafe.plan({ sampleMl: Number(change) }), opened),
      stored: async () => String((await read()).sampleMl),
    }
  },
  'what a cost level uses': async (part) => {
    const level = await nameCostLevel(cafe.world, cafe.owner, cafe.recipeId, 'economy')
    if (!level.ok) throw new Error(level.reason)
    const trialId = must(cafe.trialIds[2])
    const read = async () => must(await readCostLevels(cafe.world, keeper(), cafe.recipeId, trialId))
    const parts: Record<string, string> = {
      11: part,
      12: `ingredient:${cafe.unreadId}`,
      13: `batch:${cafe.batchIds[0]}`,
    }
    return {
      open: async () => must((await read()).levels[0]).mark,
      save: async (change, opened) => {
        const lines = must((await read()).trial).lines.map(({ id }) => ({ id, part: must(parts[change]) }))
        return chooseAlternatives(cafe.world, cafe.owner, trialId, level.value, lines, opened)
      },
      stored: async () => {
        const chosen = [...(await read()).chosen.values()][0]
        return Object.keys(parts).find((change) => parts[change] === chosen)
      },
    }
  },
  'the settings of the café': () => {
    const read = () => cafe.db.cafe.findUniqueOrThrow({ where: { id: cafe.owner.cafeId } })
    return {
      open: async () => cafeMark(await read()),
      save: (change, opened) => {
        const sent = { cafeName: change, currency: 'EUR', allergenList: 'eu', timeZone: 'UTC' }
        return changeCafe(cafe.world, cafe.owner, CafeForm.parse(sent), opened)
      },
      stored: async () => (await read()).name,
    }
  },
}

test.each(Object.keys(forms))(
  '%s saved from two tabs: the second is told, and nothing of the first is lost',
  async (name) => {
    const { id } = await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine beans' } })
    const form = await must(forms[name])(`ingredient:${id}`)
    const [first, second] = [await form.open(), await form.open()]
    expect(await form.save('11', first)).toMatchObject({ ok: true })
    expect(await form.stored()).toBe('11')
    const before = await cafe.db.auditRow.count()
    expect(await form.save('12', second)).toMatchObject({ ok: false, reason: 'saved-elsewhere' })
    expect(await form.stored()).toBe('11')
    expect(await cafe.db.auditRow.count()).toBe(before)
    // whoever has seen what is stored now may write over it
    expect(await form.save('13', await form.open())).toMatchObject({ ok: true })
    expect(await form.stored()).toBe('13')
    // a page from before there were marks carries none
    expect(await form.save('12', '')).toMatchObject({ reason: 'saved-elsewhere' })
  },
)

test('marking the level that was tasted is a change of the sheet: an older page of it is told', async () => {
  const id = must(cafe.trialIds[2])
  const level = await nameCostLevel(cafe.world, cafe.owner, cafe.recipeId, 'economy')
  const opened = trialMark(must(await readTrial(cafe.world, keeper(), id)).trial)
  await markTasted(cafe.world, cafe.owner, id, level.ok ? level.value : '')
  const lines = [{ part: `ingredient:${cafe.unreadId}`, amount: '1' }]
  const sent = TrialForm.parse({ name: 'A', method: 'drip', lines })
  expect(await changeTrial(cafe.world, keeper(), id, sent, opened)).toMatchObject({ reason: 'saved-elsewhere' })
})

test('a choice of a cost level made on lines that a saved sheet made anew is told, not dropped', async () => {
  const trialId = must(cafe.trialIds[2])
  const level = await nameCostLevel(cafe.world, cafe.owner, cafe.recipeId, 'economy')
  if (!level.ok) throw new Error(level.reason)
  const page = must(await readCostLevels(cafe.world, keeper(), cafe.recipeId, trialId))
  const line = must(page.trial).lines[0]
  const sheet = { name: 'A', method: 'drip', lines: [{ part: `ingredient:${line?.ingredientId}`, amount: '61' }] }
  await changeTrial(cafe.world, keeper(), trialId, TrialForm.parse(sheet), trialMark(must(page.trial)))
  const chosen = [{ id: line?.id ?? '', part: `ingredient:${cafe.unreadId}` }]
  const opened = must(page.levels[0]).mark
  expect(await chooseAlternatives(cafe.world, cafe.owner, trialId, level.value, chosen, opened)).toMatchObject({
    reason: 'saved-elsewhere',
  })
})
