/** Behind the bar, too, what is past its time is named: bottles, opened packs, what went in last time; and what nobody dated is asked about. */
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { Pours } from '@/app/(house)/bar/[recipeId]/pours'
import { sayBar } from '@/app/(house)/bar/bar-parts'
import { PastBatches } from '@/app/ui/past-batches'
import { readBar } from '@/lib/tasks/bar/read-bar'
import { readBarBatch } from '@/lib/tasks/bar/read-bar-batch'
import { readBarRecipe } from '@/lib/tasks/bar/read-bar-recipe'
import { readLabel } from '@/lib/tasks/bar/read-label'
import { adoptWithoutPanel } from '@/lib/tasks/recipe/keep-recipe'
import { readBatch } from '@/lib/tasks/store/read-preparation'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
let syrup: { id: string; preparationId: string }
let base: { id: string; preparationId: string }
const at = (day: string) => new Date(`2026-03-${day}T10:00:00Z`)
beforeEach(async () => {
  cafe = await cafeForTest() // its clock stands at 2026-03-14 10:00 UTC
  const { db, world } = cafe
  await db.ingredient.updateMany({ data: { labelReadAt: world.now() } })
  const [inner = '', outer = ''] = cafe.batchIds
  const made = { madeAt: at('10'), discardAt: at('25') }
  base = await db.preparationBatch.update({ where: { id: inner }, data: { outputMg: 100_000, ...made } })
  syrup = await db.preparationBatch.update({
    where: { id: outer },
    data: { outputMg: 180_000, brixHundredths: 5000, ...made },
  })
  const sent = { trialId: cafe.trialIds[3] ?? '', reason: 'It is what we sell.' }
  expect(await adoptWithoutPanel(world, cafe.owner, cafe.recipeId, sent)).toMatchObject({ ok: true })
})
afterEach(() => cafe.close())

const idOf = async (name: string) => (await cafe.db.ingredient.findFirstOrThrow({ where: { name } })).id

async function pack(name: string, mark: string, dates: { openedAt: Date; discardAt: Date | null; doneAt?: Date }) {
  const ingredientId = await idOf(name)
  await cafe.db.openedPack.create({ data: { id: mark, cafeId: cafe.owner.cafeId, ingredientId, mark, ...dates } })
}

async function second(of: { preparationId: string }, discardAt: Date | null) {
  const { cafeId } = cafe.owner
  const row = { id: `second of ${of.preparationId}`, cafeId, preparationId: of.preparationId, number: 2 }
  await cafe.db.preparationBatch.create({
    data: { ...row, outputMg: 90_000, brixHundredths: 5000, discardAt, createdAt: at('12') },
  })
}

const recipe = () => readBarRecipe(cafe.world, cafe.owner, cafe.recipeId)
const batch = (of: { preparationId: string }) =>
  readBarBatch(cafe.world, cafe.owner, of.preparationId, { grams: null, asLast: false }, false)

test('the page of a house recipe names bottles and opened packs that are past their time', async () => {
  expect((await recipe())?.past).toEqual([])
  await second(syrup, at('13'))
  await pack('Zephyrine beans', 'A', { openedAt: at('01'), discardAt: at('12') })
  const past = (await recipe())?.past ?? []
  expect(past.map(({ name }) => name)).toEqual(['Ombrelle syrup, batch 2', 'Zephyrine beans, opened pack A'])
  const words = renderToStaticMarkup(createElement(PastBatches, { past, zone: 'UTC' }))
  expect(words).toContain('Ombrelle syrup, batch 2 was to be thrown away by')
})

test('a batch takes the date of a pack that stood open when it, or what is in it, was made', async () => {
  const discard = async () => (await readLabel(cafe.world, cafe.owner, syrup.id, false))?.discardAt
  expect(await discard()).toEqual(at('25'))
  // opened after it was made, and used up before: neither went in
  await pack('Quillberry sugar', 'late', { openedAt: at('11'), discardAt: at('12') })
  await pack('Quillberry sugar', 'gone', { openedAt: at('01'), discardAt: at('11'), doneAt: at('09') })
  expect(await discard()).toEqual(at('25'))
  await pack('Quillberry sugar', 'open', { openedAt: at('09'), discardAt: at('20') })
  expect(await discard()).toEqual(at('20'))
  // in the base that is in the syrup, and used up since
  await pack('Quillberry paste', 'inner', { openedAt: at('09'), discardAt: at('18'), doneAt: at('11') })
  expect(await discard()).toEqual(at('18'))
  expect((await readBatch(cafe.world, cafe.owner, syrup.id))?.discardAt).toEqual(at('18'))
  cafe.pass(5 * 86_400_000)
  expect((await recipe())?.pours).toMatchObject([{ batch: null }])
  // and the sheet that was weighed with it says so
  const sheet = await readTrial(cafe.world, cafe.owner, cafe.trialIds[3] ?? '')
  expect(sheet?.past).toEqual([{ name: 'Ombrelle syrup, batch 1', discardAt: at('18') }])
})

test('as the last batch: what went in then and is past its date is named, with what to take', async () => {
  await pack('Quillberry sugar', 'A', { openedAt: at('11'), discardAt: at('13') })
  expect((await batch(syrup))?.past).toMatchObject([{ name: 'Quillberry sugar, opened pack A' }])
  expect((await batch(syrup))?.inputs[1]).toMatchObject({ lacking: false, pastBatch: null })
  await cafe.db.preparationBatch.update({ where: { id: base.id }, data: { discardAt: at('13') } })
  expect((await batch(syrup))?.inputs[1]).toMatchObject({ lacking: true, pastBatch: 1, takeBatch: null })
  await second(base, at('20'))
  expect((await batch(syrup))?.inputs[1]).toMatchObject({ lacking: false, pastBatch: 1, takeBatch: 2 })
})

test('a batch without a date is poured last, and asked about wherever it is', async () => {
  await cafe.db.preparationBatch.updateMany({ data: { discardAt: null } })
  const bar = await readBar(cafe.world, cafe.owner, false)
  expect(sayBar(bar)).toContain('its date is not known')
  const pours = (await recipe())?.pours ?? []
  const words = renderToStaticMarkup(createElement(Pours, { pours, zone: 'UTC' }))
  expect(words).toContain('its date not known. Look at the bottle and ask who made it')
  const sheet = await readTrial(cafe.world, cafe.owner, cafe.trialIds[3] ?? '')
  expect(sheet?.undated).toEqual(['Ombrelle syrup, batch 1'])
})
