import { afterEach, beforeEach, expect, test } from 'vitest'
import { branchTrial } from '@/lib/tasks/trial/branch-trial'
import { adoptWithoutPanel, startRecipe } from '@/lib/tasks/recipe/keep-recipe'
import { chooseAlternatives, nameCostLevel } from '@/lib/tasks/recipe/keep-cost-level'
import { archiveTrial, noteOnTrial } from '@/lib/tasks/trial/note-on-trial'
import { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { readComparison } from '@/lib/tasks/trial/compare-trials'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { changeTrial, recordFirstTrial, recordTrial } from '@/lib/tasks/trial/record-trial'
import { FirstTrialForm, TrialForm, type FirstTrial, type TrialSent } from '@/lib/forms/trial-form'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' }
const reader = () => ({ ...cafe.owner, cafe: money })

const somethingNew = { part: 'new', newName: 'X', newKind: 'other', newForm: 'liquid' } as const

async function firstTrial(more: Partial<FirstTrial> = {}): Promise<string> {
  const [milk] = await cafe.db.ingredient.findMany({ where: { kind: 'milk', cafeId: cafe.owner.cafeId } })
  await cafe.db.ingredient.update({ where: { id: milk?.id ?? '' }, data: { microdensity: 1_031_000 } })
  const coffee = await cafe.db.ingredient.findFirstOrThrow({ where: { kind: 'coffee', cafeId: cafe.owner.cafeId } })
  await cafe.db.ingredient.update({ where: { id: coffee.id }, data: { form: 'grounds' } })
  const recorded = await recordFirstTrial(cafe.world, reader(), cafe.recipeId, {
    ...FirstTrialForm.parse({
      name: '1:10',
      method: 'plunger-pot',
      water: '150',
      ice: '200',
      lines: [
        { part: `ingredient:${coffee.id}`, amount: '15' },
        {},
        { part: `ingredient:${milk?.id}`, amount: '60', unit: 'ml' },
      ],
    }),
    ...more,
  })
  if (!recorded.ok) throw new Error(recorded.reason)
  return recorded.value
}

function sheet(more: Record<string, unknown>): TrialSent {
  return TrialForm.parse({ name: 'A sheet', method: 'plunger-pot', lines: [], ...more })
}

test('a few fields make a whole sheet: what was typed stays beside the grams', async () => {
  const found = await readTrial(cafe.world, reader(), await firstTrial())
  const milk = found?.trial.lines.find((line) => line.role === 'milk')
  // 60 ml at 1.031 g/ml (USDA household weight of whole milk, as in the drink room) is 61.86 g
  expect(milk).toMatchObject({ typed: '60', unit: 'ml', microdensity: 1_031_000, targetMg: 61_860 })
  expect(found?.trial).toMatchObject({ number: 5, ratioKind: 'water-in', ratioMilli: 10_000, parentId: null })
  expect(found?.build.lines.map((line) => line.role)).toEqual(['coffee', 'milk', 'ice'])
})

test('a name that is new becomes an ingredient whose label nobody has read', async () => {
  const sent = sheet({
    lines: [{ part: 'new', newName: 'Rose water', newKind: 'other', newForm: 'liquid', amount: '2,5', unit: 'g' }],
  })
  expect(await recordTrial(cafe.world, reader(), cafe.recipeId, sent)).toMatchObject({ ok: true })
  expect(await recordTrial(cafe.world, reader(), cafe.recipeId, sent)).toMatchObject({ ok: true })
  const made = await cafe.db.ingredient.findMany({ where: { name: 'Rose water' } })
  expect(made).toHaveLength(1)
  expect(made[0]).toMatchObject({ labelReadAt: null, kind: 'other' })
})

test('a volume without a density is refused at its line, and nothing is written', async () => {
  const sent = sheet({
    lines: [{ part: 'new', newName: 'Fig syrup', newKind: 'sweetener', newForm: 'liquid', amount: '30', unit: 'ml' }],
  })
  const before = await cafe.db.trial.count()
  expect(await recordTrial(cafe.world, reader(), cafe.recipeId, sent)).toMatchObject({
    ok: false,
    reason: 'density-missing',
    detail: { line: '0' },
  })
  expect(await cafe.db.trial.count()).toBe(before)
})

test('a child starts as its parent stands and says in one line what changed', async () => {
  const parent = await firstTrial()
  const child = await branchTrial(cafe.world, cafe.owner, parent, 'More ice')
  if (!child.ok) throw new Error(child.reason)
  const same = await readTrial(cafe.world, reader(), child.value)
  expect(same?.parent?.changes).toEqual([])
  const lines = same?.trial.lines.map((line) => ({
    role: line.role,
    part: `ingredient:${line.ingredientId}`,
    amount: line.role === 'ice' ? '220' : line.typed,
    unit: line.unit,
  }))
  const changed = sheet({ name: 'More ice', ratioKind: 'water-in', ratio: '10', lines })
  expect(await changeTrial(cafe.world, reader(), child.value, changed, null)).toMatchObject({ ok: true })
  const after = await readTrial(cafe.world, reader(), child.value)
  expect(after?.parent?.changes.map((one) => one.what)).toEqual([expect.stringMatching(/ice/i)])
  const tree = await readRecipe(cafe.world, reader(), cafe.recipeId)
  expect(tree?.trials.find((one) => one.id === child.value)).toMatchObject({
    depth: 1,
    change: expect.stringContaining('200 g → 220 g'),
  })
  expect((await readComparison(cafe.world, reader(), parent, child.value))?.changes).toHaveLength(1)
})

test('an adopted trial is frozen: it cannot be edited, only branched', async () => {
  const id = await firstTrial()
  expect(
    await adoptWithoutPanel(cafe.world, cafe.owner, cafe.recipeId, { trialId: id, reason: 'On the menu.' }),
  ).toMatchObject({ value: 1 })
  const refused = await changeTrial(
    cafe.world,
    reader(),
    id,
    sheet({ lines: [{ ...somethingNew, amount: '1', unit: 'g' }] }),
    null,
  )
  expect(refused).toMatchObject({ reason: 'frozen' })
  expect((await readTrial(cafe.world, reader(), id))?.isHouse).toBe(true)
  expect(await branchTrial(cafe.world, cafe.owner, id, 'Next')).toMatchObject({ ok: true })
})

test('notes are added and name their author; a trial is put aside, never deleted', async () => {
  const id = await firstTrial()
  await noteOnTrial(cafe.world, cafe.owner, id, 'First.')
  cafe.pass(1000)
  await noteOnTrial(cafe.world, cafe.secondOwner, id, 'Second.')
  const found = await readTrial(cafe.world, reader(), id)
  expect(found?.notes.map((note) => [note.text, note.by])).toEqual([
    ['First.', 'Ottoline'],
    ['Second.', 'Barnaby'],
  ])
  await archiveTrial(cafe.world, cafe.owner, id, true)
  expect((await readTrial(cafe.world, reader(), id))?.trial.archivedAt).not.toBeNull()
})

test('another café can neither read nor change, and a second recipe of one name is refused', async () => {
  const id = await firstTrial()
  const stranger = { ...cafe.stranger, cafe: money }
  expect(await readTrial(cafe.world, stranger, id)).toBeNull()
  expect(await readRecipe(cafe.world, stranger, cafe.recipeId)).toBeNull()
  expect(await noteOnTrial(cafe.world, cafe.stranger, id, 'x')).toMatchObject({ reason: 'gone' })
  expect(await branchTrial(cafe.world, cafe.stranger, id, 'x')).toMatchObject({ reason: 'gone' })
  expect(
    await changeTrial(cafe.world, stranger, id, sheet({ lines: [{ ...somethingNew, amount: '1', unit: 'g' }] }), null),
  ).toMatchObject({ ok: false })
  expect(await startRecipe(cafe.world, cafe.owner, { name: 'Cold kiosk coffee', note: undefined })).toMatchObject({
    reason: 'name-taken',
  })
})

test.each([
  [{ lines: [] }, 'lines'],
  [{ lines: [{ part: 'new', newName: 'X', amount: '0' }] }, 'lines.0.amount'],
  [{ lines: [{ part: 'new', newName: 'X', amount: '-5' }] }, 'lines.0.amount'],
  [{ lines: [{ part: 'new', amount: '5' }] }, 'lines.0.newName'],
  [{ lines: [{ amount: '5' }] }, 'lines.0.part'],
  [{ lines: [{ part: 'new', newName: 'X', amount: '5' }], ratio: '10' }, 'ratioKind'],
  [{ lines: [{ part: 'new', newName: 'X', amount: '5' }], ratioKind: 'water-in', ratio: '2' }, 'ratio'],
  [{ lines: [{ part: 'new', newName: 'X', amount: '5' }], coffeeTemperature: 'hot' }, 'coffeeTemperature'],
  [{ name: '', lines: [{ part: 'new', newName: 'X', amount: '5' }] }, 'name'],
])('a sheet with %j is refused beside %s', (more, path) => {
  const read = TrialForm.safeParse({ name: 'A sheet', method: 'plunger-pot', ...more })
  expect(read.success).toBe(false)
  expect(read.error?.issues.map((issue) => issue.path.join('.'))).toContain(path)
})

test('a vessel, a level or an ingredient of another café is not taken, whatever a form sends', async () => {
  const { world, db, stranger } = cafe
  const elsewhere = { cafeId: stranger.cafeId, createdAt: world.now() }
  await db.vessel.create({ data: { ...elsewhere, id: 'their-vessel', name: 'Theirs', brimUl: 1000 } })
  await db.ingredient.create({ data: { ...elsewhere, id: 'their-part', name: 'Theirs', kind: 'other' } })
  const line = { ...somethingNew, amount: '5', unit: 'g' }
  const id = await recordTrial(world, reader(), cafe.recipeId, sheet({ vesselId: 'their-vessel', lines: [line] }))
  if (!id.ok) throw new Error(id.reason)
  const trial = await readTrial(world, reader(), id.value)
  expect(trial?.trial.vesselId).toBeNull()
  const theirs = sheet({ lines: [{ ...line, part: 'ingredient:their-part' }] })
  expect(await recordTrial(world, reader(), cafe.recipeId, theirs)).toMatchObject({ reason: 'part-gone' })

  const level = await nameCostLevel(world, cafe.owner, cafe.recipeId, 'economy')
  if (!level.ok) throw new Error(level.reason)
  const lines = [{ id: trial?.trial.lines[0]?.id ?? '', part: 'ingredient:their-part' }]
  expect(await chooseAlternatives(world, cafe.owner, id.value, level.value, lines, null)).toMatchObject({ ok: true })
  expect(await db.lineAlternative.count()).toBe(0)
  expect(await chooseAlternatives(world, stranger, id.value, level.value, lines, null)).toMatchObject({
    reason: 'gone',
  })
})

test('a cost level of another recipe is none of this one’s, at the first saving and at a later one', async () => {
  const { world, owner, recipeId } = cafe
  const other = await startRecipe(world, owner, { name: 'Another drink', note: undefined })
  if (!other.ok) throw new Error(other.reason)
  const [own, theirs] = [
    await nameCostLevel(world, owner, recipeId, 'economy'),
    await nameCostLevel(world, owner, other.value, 'economy'),
  ]
  if (!own.ok || !theirs.ok) throw new Error('no level')
  const lines = [{ ...somethingNew, amount: '5', unit: 'g' }]
  const id = await recordTrial(world, reader(), recipeId, sheet({ costLevelId: theirs.value, lines }))
  if (!id.ok) throw new Error(id.reason)
  const levelOf = async () => (await cafe.db.trial.findUniqueOrThrow({ where: { id: id.value } })).costLevelId
  expect(await levelOf()).toBeNull()
  const part = `ingredient:${(await cafe.db.trialLine.findFirstOrThrow({ where: { trialId: id.value } })).ingredientId}`
  for (const [sent, kept] of [
    [own.value, own.value],
    [theirs.value, null],
  ] as const) {
    const again = sheet({ costLevelId: sent, lines: [{ part, amount: '5', unit: 'g' }] })
    expect(await changeTrial(world, reader(), id.value, again, null)).toMatchObject({ ok: true })
    expect(await levelOf()).toBe(kept)
  }
})
