import { afterEach, beforeEach, expect, test } from 'vitest'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readPanelCaffeine } from '@/lib/tasks/plan/read-panel-caffeine'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' }

async function ingredient(name: string, kind: string, more: object): Promise<string> {
  const id = cafe.world.id()
  const { cafeId } = cafe.owner
  const createdAt = cafe.world.now()
  await cafe.db.ingredient.create({ data: { id, cafeId, name, kind, createdAt, labelReadAt: createdAt, ...more } })
  return id
}

/** Trials 1 to 3: 200 g of a bottled coffee of 40 to 60 mg per 100 g, density 1; with or without 200 g of ice. */
async function layBottled(withIce: boolean): Promise<void> {
  const coffee = await ingredient('Bottled coffee', 'coffee', {
    form: 'liquid',
    microdensity: 1_000_000,
    caffeineLowMg100g: 400,
    caffeineHighMg100g: 600,
  })
  const ice = await ingredient('Ice', 'ice', { form: 'ice' })
  const { cafeId } = cafe.owner
  for (const [place, trialId] of cafe.trialIds.slice(0, 3).entries()) {
    await cafe.db.trialLine.deleteMany({ where: { trialId } })
    const line = { cafeId, trialId, targetMg: 200_000, typed: '200', unit: 'g' }
    await cafe.db.trialLine.create({
      // poured warmer into the second glass: another drink, with as much caffeine
      data: {
        ...{ ...line, id: cafe.world.id(), position: 1, role: 'beverage', ingredientId: coffee },
        temperatureDeciC: 40 + 10 * place,
      },
    })
    if (!withIce) continue
    await cafe.db.trialLine.create({
      data: { ...line, id: cafe.world.id(), position: 2, role: 'ice', ingredientId: ice },
    })
  }
}

async function caffeine(more: Parameters<TestCafe['plan']>[0] = {}) {
  const typed = cafe.plan({ cups: cafe.trialIds.slice(0, 2), ...more })
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, typed)
  if (!planned.ok) throw new Error(planned.reason)
  return readPanelCaffeine(cafe.world, { ...cafe.owner, cafe: money }, planned.value)
}

// By hand: two cups of 40 ml at 0.40 to 0.60 mg/ml make 32 to 48 mg; three and a hidden duplicate, four cups, 64 to 96.
test('one portion of every cup adds up, the hidden duplicate included', async () => {
  await layBottled(false)
  const two = await caffeine()
  expect(two?.known && [two.low, two.high].map((mg) => Number(mg.toFixed(6)))).toEqual([32, 48])
  const four = await caffeine({ cups: cafe.trialIds.slice(0, 3), duplicate: cafe.trialIds[0] ?? null })
  expect(four?.known && [four.low, four.high].map((mg) => Number(mg.toFixed(6)))).toEqual([64, 96])
})

// By hand: 80 mg in 200 + 200/0.9167 = 418.17 ml, two portions of 40 ml: 15.3 mg; the high end takes the ice as unmelted.
test('ice lowers only the low end', async () => {
  await layBottled(true)
  const iced = await caffeine()
  expect(iced?.known && iced.high).toBeCloseTo(48, 6)
  expect(iced?.known && iced.low).toBeCloseTo(15.3, 1)
})

test('what is not known is named, never taken for nothing', async () => {
  const unknown = await caffeine()
  expect(unknown).toMatchObject({ known: false })
  expect(unknown && !unknown.known && unknown.missing.join(' ')).toContain('Zephyrine beans')
  await layBottled(false)
  expect(await caffeine({ sampleMl: null })).toMatchObject({ known: false, missing: ['the amount poured per cup'] })
})

// By hand: as above, 16 to 24 mg of each of the two cups; what the unread paste brings comes on top.
test('a part that states nothing hides nothing of the others', async () => {
  await layBottled(false)
  const paste = await ingredient('Quillberry spread', 'other', { microdensity: 1_000_000 })
  const { cafeId } = cafe.owner
  const line = { cafeId, position: 3, role: 'other', ingredientId: paste, targetMg: 1, typed: '1', unit: 'mg' }
  const trialId = cafe.trialIds[0] ?? ''
  await cafe.db.trialLine.create({ data: { ...line, id: cafe.world.id(), trialId } })
  const told = await caffeine()
  expect(told).toMatchObject({ known: false, missing: ['caffeine of Quillberry spread'] })
  expect(told).toMatchObject({ atLeast: { low: expect.closeTo(32, 3), high: expect.closeTo(48, 3), singleDose: 200 } })
})
