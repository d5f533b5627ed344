/** An opened pack: thrown away by the earlier of two dates, labelled, listed, and named where it is about to be poured. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { IngredientForm } from '@/lib/forms/ingredient-form'
import { PackForm } from '@/lib/forms/pack-form'
import { adoptWithoutPanel } from '@/lib/tasks/recipe/keep-recipe'
import { finishPack, openPack } from '@/lib/tasks/bar/open-pack'
import { readBar } from '@/lib/tasks/bar/read-bar'
import { readPackLabel, readPacks, readPacksOf } from '@/lib/tasks/bar/read-packs'
import { correctIngredient } from '@/lib/tasks/store/keep-ingredient'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
let milk: string
beforeEach(async () => {
  cafe = await cafeForTest() // its clock stands at 2026-03-14 10:00 UTC
  milk = (await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine milk' } })).id
})
afterEach(() => cafe.close())

const actor = () => ({ ...cafe.owner, cafe: { ...cafe.owner.cafe, timeZone: 'UTC' } })
const open = (more: object = {}, reads = true) =>
  openPack(cafe.world, actor(), PackForm.parse({ ingredient: milk, key: cafe.world.id(), ...more }), reads)
const hours = (openHours: number | null) => cafe.db.ingredient.update({ where: { id: milk }, data: { openHours } })
const opened = async (more: object = {}) => {
  const pack = await open(more)
  if (!pack.ok) throw new Error(pack.reason)
  return pack.value
}
const discardOf = async (id: string) => (await cafe.db.openedPack.findUniqueOrThrow({ where: { id } })).discardAt

test('it is thrown away by the earlier of the house’s hours and the date on it', async () => {
  const at = (clock: string) => new Date(`${clock}:00Z`)
  expect(await discardOf(await opened())).toBeNull()
  expect(await discardOf(await opened({ discardAt: '2026-03-20T12:00' }))).toEqual(at('2026-03-20T12:00'))
  await hours(72)
  // by hand: three days after 2026-03-14 10:00
  expect(await discardOf(await opened())).toEqual(at('2026-03-17T10:00'))
  expect(await discardOf(await opened({ discardAt: '2026-03-20T12:00' }))).toEqual(at('2026-03-17T10:00'))
  expect(await discardOf(await opened({ discardAt: '2026-03-15T12:00' }))).toEqual(at('2026-03-15T12:00'))
  expect(await discardOf(await opened({ openedAt: '2026-03-13T08:00' }))).toEqual(at('2026-03-16T08:00'))
})

test('times that cannot be are refused at their field', async () => {
  expect(await open({ openedAt: '2026-03-14T11:00' })).toMatchObject({ reason: 'not-yet' })
  expect(await open({ openedAt: '2026-99-14T11:00' })).toMatchObject({ reason: 'opened-no-time' })
  expect(await open({ discardAt: '2026-99-14T11:00' })).toMatchObject({ reason: 'discard-no-time' })
  expect(await open({ discardAt: '2026-03-14T09:00' })).toMatchObject({ reason: 'discard-too-early' })
  const both = {
    ingredient: milk,
    key: 'a-key-of-the-page',
    openedAt: '2026-03-14T09:00',
    discardAt: '2026-03-14T09:00',
  }
  expect(PackForm.safeParse(both).error?.issues).toMatchObject([{ path: ['discardAt'] }])
  expect(await cafe.db.openedPack.count()).toBe(0)
})

test('sent twice it opens one pack, once in the diary, and answers which', async () => {
  const key = 'a-key-of-the-page'
  const first = await opened({ key, mark: 'A' })
  expect(await opened({ key, mark: 'A' })).toBe(first)
  // finished meanwhile: what comes late opens no second one
  await finishPack(cafe.world, cafe.owner, first, 'used-up', true)
  expect(await opened({ key, mark: 'A' })).toBe(first)
  expect(await cafe.db.openedPack.count()).toBe(1)
  expect(await cafe.db.auditRow.count({ where: { act: 'pack-opened' } })).toBe(1)
  expect(PackForm.safeParse({ ingredient: milk }).error?.issues).toMatchObject([{ path: ['key'] }])
})

test('its label says what the label of the pack says; of one that nobody read it is not stated', async () => {
  const id = await opened({ mark: 'L 2231' })
  await cafe.db.ingredientAllergen.create({
    data: { id: 'm', cafeId: cafe.owner.cafeId, ingredientId: milk, allergen: 'milk', state: 'contains' },
  })
  const label = () => readPackLabel(cafe.world, cafe.owner, id, true)
  const found = await label()
  expect(found).toMatchObject({ name: 'Zephyrine milk', mark: 'L 2231', isPast: false, allergens: { unread: [] } })
  expect(found?.allergens.rows.filter(({ state }) => state === 'contains').map(({ id: one }) => one)).toEqual(['milk'])
  await cafe.db.ingredient.update({ where: { id: milk }, data: { labelReadAt: null } })
  expect((await label())?.allergens.unread).toEqual(['Zephyrine milk'])
})

test('the bar lists what goes today and what is past; used up or thrown away it is listed no more, once, with its diary line', async () => {
  await hours(13)
  const id = await opened({ mark: 'A' })
  await hours(48)
  await opened({ mark: 'B' })
  const due = async () => (await readBar(cafe.world, cafe.owner, true)).packs.map(({ mark, isPast }) => [mark, isPast])
  expect(await due()).toEqual([['A', false]])
  cafe.pass(13 * 3_600_000)
  expect(await due()).toEqual([['A', true]])
  expect(await finishPack(cafe.world, cafe.owner, id, 'thrown-away', true)).toMatchObject({ ok: true })
  expect(await finishPack(cafe.world, cafe.owner, id, 'used-up', true)).toMatchObject({ reason: 'gone' })
  expect(await due()).toEqual([])
  expect((await readPacksOf(cafe.world, cafe.owner, milk)).map(({ mark }) => mark)).toEqual(['B'])
  expect(await readPackLabel(cafe.world, cafe.owner, id, true)).toBeNull()
  const acts = await cafe.db.auditRow.findMany({ where: { act: { startsWith: 'pack-' } }, orderBy: { at: 'asc' } })
  expect(acts.map(({ act }) => act)).toEqual(['pack-opened', 'pack-opened', 'pack-thrown-away'])
})

test('a pack past its time is named on the sheet that is poured from it', async () => {
  const [trialId = ''] = cafe.trialIds
  await opened({ mark: 'A', discardAt: '2026-03-14T12:00' })
  const past = async () => (await readTrial(cafe.world, cafe.owner, trialId))?.past.map(({ name }) => name)
  expect(await past()).toEqual([])
  cafe.pass(2 * 3_600_000 + 1)
  expect(await past()).toEqual(['Zephyrine milk, opened pack A'])
  await cafe.db.openedPack.updateMany({ data: { doneAt: cafe.world.now() } })
  expect(await past()).toEqual([])
})

test('what no house recipe is made of is not the bar’s, what one is made of is', async () => {
  const id = await opened()
  expect(await open({}, false)).toMatchObject({ reason: 'gone' })
  expect(await finishPack(cafe.world, cafe.owner, id, 'used-up', false)).toMatchObject({ reason: 'gone' })
  expect(await readPackLabel(cafe.world, cafe.owner, id, false)).toBeNull()
  expect(await readPacks(cafe.world, cafe.owner, false)).toEqual({ packs: [], openable: [] })
  expect(
    await openPack(cafe.world, { ...actor(), cafeId: 'another' }, { ingredient: milk, key: 'key' }, true),
  ).toMatchObject({
    reason: 'gone',
  })
  const sent = { trialId: cafe.trialIds[0] ?? '', reason: 'It is what we sell.' }
  expect(await adoptWithoutPanel(cafe.world, cafe.owner, cafe.recipeId, sent)).toMatchObject({ ok: true })
  const { packs, openable } = await readPacks(cafe.world, cafe.owner, false)
  expect(packs.map(({ name }) => name)).toEqual(['Zephyrine milk'])
  expect(openable.map(({ name }) => name)).toEqual(['Zephyrine beans', 'Zephyrine milk'])
})

test('the hours it keeps once opened are kept with the ingredient, and read again', async () => {
  const sent = { name: 'Zephyrine milk', kind: 'milk', form: 'liquid', openHours: '72' }
  expect(await correctIngredient(cafe.world, cafe.owner, milk, IngredientForm.parse(sent), null)).toMatchObject({
    ok: true,
  })
  expect(await cafe.db.ingredient.findUnique({ where: { id: milk } })).toMatchObject({ openHours: 72 })
  for (const slip of ['-1', '1.5', 'a week'])
    expect(IngredientForm.safeParse({ ...sent, openHours: slip }).error?.issues).toMatchObject([
      { path: ['openHours'] },
    ])
})
