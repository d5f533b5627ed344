/** The filling list says in grams what goes into each jug; the serving list learns nothing of it. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openList } from '@/lib/tasks/pour/open-list'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readJugFills } from '@/lib/tasks/pour/read-jug-fills'
import { readListHead, readServingList } from '@/lib/tasks/pour/read-pouring-list'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
  await cafe.db.ingredient.updateMany({ data: { microdensity: 1_000_000, labelReadAt: cafe.world.now() } })
})
afterEach(() => cafe.close())

/** Puts 60 g of ice on the second trial, of which nobody says how cold it is. */
async function ice() {
  const id = cafe.world.id()
  const { cafeId } = cafe.owner
  const at = cafe.world.now()
  await cafe.db.ingredient.create({
    data: { id, cafeId, name: 'Frostine ice', kind: 'ice', form: 'ice', createdAt: at, labelReadAt: at },
  })
  const more = { id: cafe.world.id(), cafeId, ingredientId: id, position: 2, role: 'ice' }
  await cafe.db.trialLine.create({
    data: { ...more, trialId: cafe.trialIds[1] ?? '', targetMg: 60_000, typed: '60', unit: 'g' },
  })
}

async function filling(more: Parameters<TestCafe['plan']>[0] = {}, query: Record<string, string> = {}) {
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan(more))
  if (!planned.ok) throw new Error(planned.reason)
  const opened = await openPanel(cafe.world, cafe.owner, planned.value)
  if (!opened.ok) throw new Error(opened.reason)
  const panelId = planned.value
  const head = await readListHead(cafe.world, cafe.owner, panelId, 'filling')
  const list = await openList(cafe.world, cafe.owner, panelId, 'filling')
  if (!list.ok) throw new Error(list.reason)
  const read = (told = query, reader = cafe.owner) =>
    readJugFills(cafe.world, reader, panelId, list.value, head?.mlPerJug ?? null, told)
  return { panelId, read }
}

const gramsOf = async (
  read: Awaited<ReturnType<typeof filling>>['read'],
  query: Record<string, string>,
  trial: number,
) => {
  const jug = (await read(query))?.jugs.find(({ trialNumber }) => trialNumber === trial)
  return jug?.fill?.known ? jug.fill.lines.map(({ name, grams }) => [name, Math.round(grams * 1e6) / 1e6]) : null
}

// by hand: 6 portions · 40 ml · 1.15 = 276 ml a jug; 60 g + 60 g at 1 g/ml are 120 ml; 60 · 276 / 120 = 138 g
test('each jug has the grams of every line for the millilitres that the panel needs', async () => {
  const { read } = await filling()
  expect(await gramsOf(read, {}, 1)).toEqual([
    ['Zephyrine beans', 138],
    ['Zephyrine milk', 138],
  ])
  expect(await gramsOf(read, {}, 3)).toEqual([['Zephyrine beans', 276]])
  expect((await read())?.warmth).toEqual([])
})

test('strained off ice, a temperature that no sheet says is asked for, never assumed', async () => {
  await ice()
  const { read } = await filling()
  const asked = await read()
  expect(asked?.warmth.map(({ name }) => name).toSorted()).toEqual([
    'Frostine ice',
    'Quillberry sugar',
    'Zephyrine beans',
  ])
  expect(asked?.jugs.find(({ trialNumber }) => trialNumber === 2)?.fill).toMatchObject({ known: false })
  // trials without ice need none of it
  expect(await gramsOf(read, {}, 1)).not.toBeNull()
  const fields = Object.fromEntries(asked?.warmth.map(({ field }) => [field, '0']) ?? [])
  // all at 0 °C: nothing melts, so the 120 ml of the other two fill the jug as above
  expect(await gramsOf(read, fields, 2)).toEqual([
    ['Zephyrine beans', 138],
    ['Quillberry sugar', 138],
    ['Frostine ice', 138],
  ])
  const { field = '' } = asked?.warmth[0] ?? {}
  expect(await gramsOf(read, { ...fields, [field]: 'tepid' }, 2)).toBeNull()
})

test('batches are told for all jugs together, with what goes in', async () => {
  const [inner = '', outer = ''] = cafe.batchIds
  await cafe.db.preparationBatch.update({ where: { id: inner }, data: { outputMg: 100_000, microdensity: 1_000_000 } })
  await cafe.db.preparationBatch.update({ where: { id: outer }, data: { outputMg: 200_000, microdensity: 1_000_000 } })
  const [milky = '', , beans = '', syrup = ''] = cafe.trialIds
  const { read } = await filling({ cups: [milky, beans, syrup], duplicate: syrup })
  // by hand: two jugs of 138 g of syrup are 276 g, of 138 g sugar and 138 g base, which is paste alone
  expect((await read())?.batches).toEqual([
    {
      name: 'Ombrelle base',
      grams: expect.closeTo(138, 6),
      inputs: [{ name: 'Quillberry paste', grams: expect.closeTo(138, 6) }],
    },
    {
      name: 'Ombrelle syrup',
      grams: expect.closeTo(276, 6),
      inputs: [
        { name: 'Quillberry sugar', grams: expect.closeTo(138, 6) },
        { name: 'Ombrelle base, batch 1', grams: expect.closeTo(138, 6) },
      ],
    },
  ])
})

test('without an amount in the plan no grams are made up', async () => {
  const { read } = await filling({ sampleMl: null })
  expect((await read())?.jugs.map(({ fill }) => fill)).toEqual([null, null, null])
})

test('it opens to who opened the filling list alone, and the serving list tells none of it', async () => {
  const { panelId, read } = await filling()
  expect(await read({}, cafe.pourer)).toBeNull()
  expect(await read({}, cafe.stranger)).toBeNull()
  const opened = await openList(cafe.world, cafe.pourer, panelId, 'serving')
  if (!opened.ok) throw new Error(opened.reason)
  expect(await readJugFills(cafe.world, cafe.pourer, panelId, opened.value, 276, {})).toBeNull()
  const trays = JSON.stringify(await readServingList(cafe.world, cafe.pourer, panelId, opened.value))
  expect(trays).not.toMatch(/Zephyrine|Quillberry|grams|Velvetine/)
  const servings = await cafe.db.serving.findMany({ where: { panelId } })
  const fills = JSON.stringify(await read())
  for (const { code } of servings) expect(fills).not.toMatch(new RegExp(`(?<![\\w.-])${code}(?![\\w.-])`))
})
