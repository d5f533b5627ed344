/** A sheet brings into the store what it is the first to name: an ingredient, its label, its price, in one act. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { inMoneyOf, TrialForm } from '@/lib/forms/trial-form'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { recordTrial } from '@/lib/tasks/trial/record-trial'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu', timeZone: 'UTC' }
const reader = () => ({ ...cafe.owner, cafe: money })
const sheet = (...lines: object[]) => TrialForm.parse({ name: 'A sheet', method: 'no-coffee', lines })
const record = (...lines: object[]) => recordTrial(cafe.world, reader(), cafe.recipeId, sheet(...lines))
const named = (name: string) =>
  cafe.db.ingredient.findFirst({ where: { name }, include: { allergens: true, prices: true } })
const acts = async () => (await cafe.db.auditRow.findMany({ orderBy: { at: 'asc' } })).map(({ act }) => act)

const milk = { part: 'new', newName: 'Milk of the dairy', newKind: 'milk', newForm: 'liquid', amount: '60', unit: 'ml' }

test('a new name becomes an ingredient with its label read, what it names, and its price', async () => {
  const made = await record({ ...milk, labelRead: 'on', contains: 'milk', price: '1,20', pack: '1', packUnit: 'l' })
  expect(made).toMatchObject({ ok: true })
  const row = await named('Milk of the dairy')
  expect(row).toMatchObject({ kind: 'milk', form: 'liquid', microdensity: 1_020_000, densityIsAssumed: true })
  expect(row?.labelReadAt).not.toBeNull()
  expect(row?.labelReadById).toBe(cafe.owner.userId)
  expect(row?.allergens.map(({ allergen, state }) => `${allergen} ${state}`)).toEqual(['milk contains'])
  // by hand: 1 l at 1.02 g/ml is 1 020 g
  expect(row?.prices).toMatchObject([{ priceMinor: 120, packMg: 1_020_000, packTyped: '1', packUnit: 'l' }])
  const found = made.ok ? await readTrial(cafe.world, reader(), made.value) : null
  // by hand: 60 ml · 1.02 = 61.2 g
  expect(found?.build.lines).toMatchObject([{ targetGrams: 61.2, labelRead: true, densityIsAssumed: true }])
  expect(found?.figures.problems.map(({ message, doubt }) => [doubt, message.includes('is assumed')])).toContainEqual([
    true,
    true,
  ])
  expect((await acts()).slice(-3)).toEqual(['ingredient-added', 'price-added', 'trial-recorded'])
})

test('a density typed for something new is kept as weighed', async () => {
  await record({ ...milk, density: '1,031', densityFor: 'new' })
  expect(await named('Milk of the dairy')).toMatchObject({ microdensity: 1_031_000, densityIsAssumed: false })
})

test('without the tick the label stays unread, whatever is said that it names', async () => {
  await record({ ...milk, contains: ['milk', 'no-such-allergen'] })
  const row = await named('Milk of the dairy')
  expect(row?.labelReadAt).toBeNull()
  expect(row?.allergens.map(({ allergen }) => allergen)).toEqual(['milk'])
})

test('one tick reads the label of what the store has already, and adds what it names; a read label is not touched', async () => {
  const { cafeId } = cafe.owner
  const id = cafe.world.id()
  await cafe.db.ingredient.create({
    data: { id, cafeId, name: 'Oat drink', kind: 'milk', createdAt: cafe.world.now() },
  })
  const mark = { id: cafe.world.id(), cafeId, ingredientId: id, allergen: 'gluten-cereals', state: 'may-contain' }
  await cafe.db.ingredientAllergen.create({ data: mark })
  const line = { part: `ingredient:${id}`, amount: '60', labelRead: 'on' }
  await record({ ...line, contains: ['gluten-cereals', 'soybeans'] })
  const read = await named('Oat drink')
  expect(read?.labelReadById).toBe(cafe.owner.userId)
  const marks = (row: typeof read) => row?.allergens.map(({ allergen, state }) => `${allergen} ${state}`).toSorted()
  expect(marks(read)).toEqual(['gluten-cereals contains', 'soybeans contains'])
  await record({ ...line, contains: ['milk'] })
  expect(marks(await named('Oat drink'))).toEqual(['gluten-cereals contains', 'soybeans contains'])
  expect((await acts()).filter((act) => act === 'ingredient-corrected')).toHaveLength(1)
})

test('where a later line is refused nothing of the sheet has been kept, and the same name twice is one ingredient', async () => {
  const before = await cafe.db.ingredient.count()
  const unweighed = { part: 'new', newName: 'Zest', newKind: 'other', newForm: 'liquid', amount: '5', unit: 'ml' }
  expect(await record(milk, unweighed)).toMatchObject({
    reason: 'density-missing',
    detail: { line: '1', name: 'Zest' },
  })
  expect(await cafe.db.ingredient.count()).toBe(before)
  expect(await record(milk, milk)).toMatchObject({ ok: true })
  expect(await cafe.db.ingredient.count()).toBe(before + 1)
})

test('a pack nobody can weigh, and a price in another money than the café’s, are refused at their line', async () => {
  const zest = { part: 'new', newName: 'Zest', newKind: 'other', newForm: 'liquid', amount: '5' }
  expect(await record({ ...zest, price: '3', pack: '1', packUnit: 'l' })).toMatchObject({ reason: 'pack-unweighable' })
  await cafe.db.cafe.update({ where: { id: cafe.owner.cafeId }, data: { currency: 'JPY', currencyDigits: 0 } })
  expect(await record({ ...zest, price: '3', pack: '1', packUnit: 'kg' })).toMatchObject({ reason: 'currency-changed' })
  expect(await named('Zest')).toBeNull()
})

test('what is no price in the café’s money, or has no pack, is asked for beside its field', () => {
  const line = { part: 'new', newName: 'Zest', newKind: 'other', newForm: 'liquid', amount: '5' }
  const asks = (more: object) =>
    TrialForm.superRefine(inMoneyOf(money))
      .safeParse({ name: 'A', method: 'no-coffee', lines: [{ ...line, ...more }] })
      .error?.issues.map(({ path }) => path.join('.'))
  expect(asks({ price: '2,005', pack: '1' })).toEqual(['lines.0.price'])
  expect(asks({ price: 'two', pack: '1' })).toEqual(['lines.0.price'])
  expect(asks({ price: '2' })).toEqual(['lines.0.pack'])
  expect(asks({ pack: '1' })).toEqual(['lines.0.price'])
  expect(asks({ price: '2,50', pack: '1' })).toBeUndefined()
})
