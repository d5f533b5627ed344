/** Sheets for whoever makes it at home: kept as they stood, given out and withdrawn, and what comes back beside blind evidence. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { sayHomeSheet } from '@/app/home/say-home-sheet'
import { forgottenMarks } from '@/lib/db/forgotten-marks'
import { writeHomeAnswer } from '@/lib/forms/home-answer-text'
import { readHomeSheetText } from '@/lib/forms/home-sheet'
import { chooseHearing, makeHomeSheet, withdrawHomeSheet } from '@/lib/tasks/home/keep-home-sheet'
import { readHomeSheet } from '@/lib/tasks/home/read-home-sheet'
import { readHomeCount, readHomeSheets } from '@/lib/tasks/home/read-home-sheets'
import { pasteHomeAnswer, typeInHomeAnswer } from '@/lib/tasks/home/take-in-answer'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { forgetHome } from '@/lib/tasks/privacy/forget-home'
import { tidy } from '@/lib/tasks/privacy/tidy'
import { adoptWithoutPanel } from '@/lib/tasks/recipe/keep-recipe'
import { exportPanel, exportScores } from '@/lib/tasks/result/export-panel'
import { readResult } from '@/lib/tasks/result/read-result'
import { cafeForTest, type TestCafe } from '../../support/cafe'
import { scoreAsInR } from '../../support/panel-of-eight'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const DAY_MS = 86_400_000
const noted = (act: string) => cafe.db.auditRow.count({ where: { act } })

async function given(at = 3): Promise<string> {
  const { world, owner, recipeId, trialIds } = cafe
  await chooseHearing(world, owner, true)
  const made = await makeHomeSheet(world, owner, recipeId, trialIds[at] ?? '')
  if (!made.ok) throw new Error(made.reason)
  return made.value.id
}

async function textOf(sheetId: string, more: object = {}): Promise<string> {
  const { mark } = await cafe.db.homeSheet.findUniqueOrThrow({ where: { id: sheetId } })
  const answer = { mark, key: 'k'.repeat(21), liking: 7, changed: 'Oat drink', further: '', name: 'Zwenna', ...more }
  return writeHomeAnswer(answer, 'like moderately')
}

test('no café gives sheets out until its owner says so, and what it says is noted once', async () => {
  const { world, owner, recipeId, trialIds, db } = cafe
  const trialId = trialIds[0] ?? ''
  expect(await makeHomeSheet(world, owner, recipeId, trialId)).toMatchObject({ reason: 'off' })
  await chooseHearing(world, owner, true)
  await chooseHearing(world, owner, true)
  expect(await noted('hearing-from-home-begun')).toBe(1)
  expect(await db.cafe.count({ where: { hearsBack: true } })).toBe(1)
  expect(await makeHomeSheet(world, owner, recipeId, trialId)).toMatchObject({ ok: true })
  await chooseHearing(world, owner, false)
  expect(await noted('hearing-from-home-ended')).toBe(1)
  expect(await makeHomeSheet(world, owner, recipeId, trialId)).toMatchObject({ reason: 'off' })
})

test('a sheet is kept as it stood that day, under the next version, with its line in the diary', async () => {
  const { world, owner, recipeId, db } = cafe
  const [first, second] = [await given(), await given(0)]
  const rows = await db.homeSheet.findMany({ orderBy: { version: 'asc' } })
  expect(rows.map(({ id, version }) => [id, version])).toEqual([
    [first, 1],
    [second, 2],
  ])
  expect(new Set(rows.map(({ mark }) => mark)).size).toBe(2)
  for (const { mark } of rows) expect(mark).toMatch(/^[B-Z2-9]{4}-[B-Z2-9]{4}$/)
  expect(await noted('home-sheet-made')).toBe(2)
  await db.recipe.update({ where: { id: recipeId }, data: { name: 'Renamed since' } })
  expect((await readHomeSheet(world, owner, first))?.sheet.content.recipe).toBe('Cold kiosk coffee')
  expect(await readHomeCount(world, owner, recipeId)).toEqual({ hearsBack: true, sheets: 2, answers: 0 })
})

test('it says amounts, house syrups down to what is bought, allergens and what is not stated; no money and no supplier', async () => {
  const { world, owner, db, unreadId } = cafe
  await db.ingredient.update({ where: { id: unreadId }, data: { supplier: 'Wholesaler Plimvane' } })
  const price = { packMg: 1000, packTyped: '1', packUnit: 'g', priceMinor: 47_113, day: '2026-01-01' }
  const when = { since: world.now(), createdAt: world.now() }
  await db.ingredientPrice.create({
    data: { id: 'p', cafeId: owner.cafeId, ingredientId: unreadId, ...price, ...when },
  })
  await given()
  const { sheet } = await db.homeSheet.findFirstOrThrow()
  const content = readHomeSheetText(sheet)
  expect(content?.lines).toEqual([
    { name: 'Zephyrine beans', grams: 60, ml: null, assumedDensity: null, home: null, brew: null, isMade: false },
    { name: 'Ombrelle syrup', grams: 60, ml: null, assumedDensity: null, home: null, brew: null, isMade: true },
  ])
  // what goes into another stands first
  expect(content?.made.map(({ name, inputs }) => [name, inputs.map((line) => `${line.grams} ${line.name}`)])).toEqual([
    ['Ombrelle base', ['100 Quillberry paste']],
    ['Ombrelle syrup', ['100 Quillberry sugar', '100 Ombrelle base']],
  ])
  expect(content?.warnings.unread).toEqual(['Quillberry paste'])
  expect(content?.warnings.cautions.join(' ')).toMatch(/Hot syrup sticks and burns.*Caffeine is not known/)
  expect(content).toMatchObject({ standing: 'draft', tasted: false, houseVersion: null })
  expect(sheet).not.toMatch(/Plimvane|47113|471\.13|EUR|batch 1|Ottoline/)
})

test('spoons stand beside grams where the house weighed that spoon, to a quarter, and nowhere else', async () => {
  const { db } = cafe
  await db.preparation.updateMany({ where: { name: 'Ombrelle syrup' }, data: { spoonMg: 6800 } })
  await db.ingredient.updateMany({ where: { name: 'Quillberry sugar' }, data: { spoonMg: 4200 } })
  await given()
  const content = readHomeSheetText((await db.homeSheet.findFirstOrThrow()).sheet)
  // by hand: 60 / 6.8 = 8.82, nearest quarter 8¾; 100 / 4.2 = 23.81, nearest quarter 23¾
  expect(content?.lines.map(({ home }) => home)).toEqual([null, 'about 8¾ level teaspoons'])
  expect(content?.made.at(-1)?.inputs.map(({ home }) => home)).toEqual(['about 23¾ level teaspoons', null])
})

test('millilitres by a density that nobody weighed say which one was assumed; a weighed one says nothing', async () => {
  const { db } = cafe
  const milk = (more: object) => db.ingredient.updateMany({ where: { name: 'Zephyrine milk' }, data: more })
  await milk({ form: 'liquid', microdensity: 1_020_000, densityIsAssumed: true })
  await given(0)
  await milk({ densityIsAssumed: false })
  await given(0)
  const sheets = await Promise.all(
    (await db.homeSheet.findMany({ orderBy: { version: 'asc' } })).map(({ id }) =>
      readHomeSheet(cafe.world, cafe.owner, id),
    ),
  )
  // by hand: 60 / 1.02 = 58.8 ml
  expect(sheets.map((one) => one && sayHomeSheet(one.sheet, 'UTC').lines[1]?.amount)).toEqual([
    '60 g (59 ml at 1.02 g/ml, assumed)',
    '60 g (59 ml)',
  ])
  // a sheet given out before that was kept still opens
  const { sheet } = await db.homeSheet.findFirstOrThrow()
  expect(readHomeSheetText(sheet.replaceAll('"assumedDensity":1.02,', ''))?.lines[1]?.assumedDensity).toBeNull()
})

test('of a draft it says that nobody tasted it; of a trial in an open panel nothing of the panel; after closing that it was tasted', async () => {
  const { world, owner, trialIds } = cafe
  const said = async (id: string) => {
    const found = await readHomeSheet(world, owner, id)
    if (!found) throw new Error('gone')
    return sayHomeSheet(found.sheet, 'UTC').standing
  }
  const draft = await given(1)
  expect(await said(draft)).toMatch(/^Nobody has tasted this: it is a draft/)
  const planned = await planPanel(world, owner, cafe.recipeId, cafe.plan({ seatCount: 9, aspects: [] }))
  if (!planned.ok) throw new Error(planned.reason)
  expect(await openPanel(world, owner, planned.value)).toMatchObject({ ok: true })
  const open = await given(1)
  expect(await said(open)).not.toMatch(/tasted/)
  const kept = await cafe.db.homeSheet.findUniqueOrThrow({ where: { id: open } })
  expect(kept.sheet).not.toMatch(/Kiosk question|Three cold coffees/)
  await scoreAsInR(cafe, planned.value)
  await closePanel(world, owner, planned.value)
  expect(await said(await given(1))).toMatch(/not the café’s drink: it was tasted as poured there\.$/)
  // as it stood that day
  expect(await said(draft)).toMatch(/^Nobody has tasted this/)
  expect(trialIds).toHaveLength(4)
})

test('an allergen found since stands above all on an old sheet, and so does a newer house recipe', async () => {
  const { world, owner, recipeId, trialIds, unreadId, db } = cafe
  await db.trial.updateMany({ data: { method: 'immersion' } })
  const id = await given()
  const now = async () => {
    const found = await readHomeSheet(world, owner, id)
    if (!found) throw new Error('gone')
    return sayHomeSheet(found.sheet, 'UTC')
  }
  expect((await now()).changed).toEqual([])
  const mark = { id: 'a', cafeId: owner.cafeId, ingredientId: unreadId, allergen: 'tree-nuts', state: 'contains' }
  await db.ingredientAllergen.create({ data: mark })
  const later = await now()
  expect(later.changed).toEqual([
    'Its labels or cautions have changed since this sheet was given out: now known to contain Tree nuts. What stands below is today’s.',
  ])
  expect(later.allergens[0]).toEqual(['Contains', 'Tree nuts'])
  cafe.pass(DAY_MS)
  const adopted = await adoptWithoutPanel(world, owner, recipeId, { trialId: trialIds[2] ?? '', reason: 'On the menu' })
  expect(adopted).toMatchObject({ ok: true })
  expect((await now()).changed[1]).toMatch(/^The café makes another one since 15 Mar 2026: house recipe 1\./)
})

test('a sheet is withdrawn by its own café, once; what comes back of it is still taken in', async () => {
  const { world, owner, stranger, recipeId } = cafe
  const id = await given()
  await withdrawHomeSheet(world, stranger, id)
  expect((await readHomeSheet(world, owner, id))?.givenOut).toBe(true)
  await withdrawHomeSheet(world, owner, id)
  await withdrawHomeSheet(world, owner, id)
  expect(await readHomeSheet(world, owner, id)).toMatchObject({ givenOut: false, withdrawnAt: world.now() })
  expect(await noted('home-sheet-withdrawn')).toBe(1)
  expect(await pasteHomeAnswer(world, owner, recipeId, await textOf(id))).toEqual({ ok: true, value: 'new' })
})

test('an answer is pasted in once, and read in a place of its own', async () => {
  const { world, owner, secondOwner, recipeId, db } = cafe
  const id = await given()
  const text = await textOf(id, { further: 'Again on Sunday' })
  expect(await pasteHomeAnswer(world, owner, recipeId, text)).toEqual({ ok: true, value: 'new' })
  expect(await pasteHomeAnswer(world, secondOwner, recipeId, `> ${text}`)).toEqual({ ok: true, value: 'known' })
  expect(await db.homeAnswer.findMany({ omit: { id: true, at: true } })).toEqual([
    {
      cafeId: owner.cafeId,
      homeSheetId: id,
      key: 'k'.repeat(21),
      name: 'Zwenna',
      changed: 'Oat drink',
      liking: 7,
      text: 'Again on Sunday',
      source: 'pasted',
      enteredById: owner.userId,
    },
  ])
  expect(await noted('home-answer-taken-in')).toBe(1)
  const read = await readHomeSheets(world, owner, recipeId, 1)
  expect(read?.answers).toMatchObject([{ name: 'Zwenna', liking: 7, by: 'Ottoline', sheetVersion: 1 }])
})

test('what cannot be taken in is refused by its reason, and nothing is written', async () => {
  const { world, owner, stranger, recipeId, db } = cafe
  const id = await given()
  const whole = await textOf(id)
  const other = await db.recipe.create({
    data: { id: 'other', cafeId: owner.cafeId, name: 'Another drink', createdAt: world.now() },
  })
  const refused = async (text: string, by = owner, of = recipeId) => {
    const taken = await pasteHomeAnswer(world, by, of, text)
    return taken.ok ? 'taken in' : taken.reason
  }
  expect(await refused('Lovely!')).toBe('no-answer')
  expect(await refused(whole.slice(0, -30))).toBe('cut-off')
  expect(await refused(whole.replace('Oat', 'Nut'))).toBe('damaged')
  expect(await refused(`${'x'.repeat(9000)}\n${whole}`)).toBe('too-long')
  // the sum of these agrees: whoever can read our file can write them
  expect(await refused(await textOf(id, { liking: 10 }))).toBe('damaged')
  expect(await refused(await textOf(id, { liking: 0 }))).toBe('damaged')
  expect(await refused(await textOf(id, { changed: 'x'.repeat(1001) }))).toBe('damaged')
  expect(await refused(await textOf(id, { name: 'x'.repeat(61) }))).toBe('damaged')
  expect(await refused(await textOf(id, { key: 'k' }))).toBe('damaged')
  expect(await refused(await textOf(id, { key: "' OR 1=1 --" }))).toBe('damaged')
  expect(await refused(await textOf(id, { liking: null, changed: '', name: 'Ina' }))).toBe('nothing-said')
  expect(await refused(await textOf(id, { mark: 'BCDF-BCDF' }))).toBe('unknown-sheet')
  expect(await refused(whole, owner, other.id)).toBe('other-recipe')
  await chooseHearing(world, stranger, true)
  expect(await refused(whole, stranger)).toBe('unknown-sheet')
  await chooseHearing(world, owner, false)
  expect(await refused(whole)).toBe('off')
  expect(await db.homeAnswer.count()).toBe(0)
  expect(await noted('home-answer-taken-in')).toBe(0)
})

test('an answer from paper is typed in once, by this café alone', async () => {
  const { world, owner, stranger, db } = cafe
  const id = await given()
  const said = { liking: null, changed: 'Less ice', further: '', name: '' }
  expect(await typeInHomeAnswer(world, stranger, id, 'x'.repeat(21), said)).toMatchObject({ reason: 'off' })
  await chooseHearing(world, stranger, true)
  expect(await typeInHomeAnswer(world, stranger, id, 'x'.repeat(21), said)).toMatchObject({ reason: 'gone' })
  expect(await typeInHomeAnswer(world, owner, id, 'x'.repeat(21), said)).toEqual({ ok: true, value: 'new' })
  expect(await typeInHomeAnswer(world, owner, id, 'x'.repeat(21), said)).toEqual({ ok: true, value: 'known' })
  expect(await db.homeAnswer.findMany({ select: { source: true, liking: true, name: true, text: true } })).toEqual([
    { source: 'paper', liking: null, name: null, text: null },
  ])
  expect(await noted('home-answer-taken-in')).toBe(1)
})

test('another café reads neither sheets nor answers', async () => {
  const { world, owner, stranger, recipeId } = cafe
  const id = await given()
  await pasteHomeAnswer(world, owner, recipeId, await textOf(id))
  expect(await readHomeSheet(world, stranger, id)).toBeNull()
  expect(await readHomeSheets(world, stranger, recipeId, 1)).toBeNull()
  expect(await readHomeCount(world, stranger, recipeId)).toEqual({ hearsBack: false, sheets: 0, answers: 0 })
})

test('what came from home is in no result and in no file of a panel', async () => {
  const { world, owner, recipeId } = cafe
  const planned = await planPanel(world, owner, recipeId, cafe.plan({ seatCount: 9, aspects: [] }))
  if (!planned.ok) throw new Error(planned.reason)
  await openPanel(world, owner, planned.value)
  await scoreAsInR(cafe, planned.value)
  await closePanel(world, owner, planned.value)
  const told = async () =>
    JSON.stringify([
      await readResult(world, owner, planned.value),
      await exportPanel(world, owner, planned.value),
      await exportScores(world, owner, planned.value),
    ])
  const before = await told()
  const id = await given(1)
  await pasteHomeAnswer(world, owner, recipeId, await textOf(id, { changed: 'Zwindolf', liking: 1 }))
  expect(await cafe.db.homeAnswer.count()).toBe(1)
  expect(await told()).toBe(before)
})

test('a name is forgotten after the café’s days or when asked, words when asked; how they liked it stays', async () => {
  const { world, owner, stranger, recipeId, db, file } = cafe
  const marks = forgottenMarks(file)
  const id = await given()
  await pasteHomeAnswer(world, owner, recipeId, await textOf(id))
  const answer = () => db.homeAnswer.findFirstOrThrow({ select: { name: true, changed: true, liking: true } })
  await db.cafe.update({ where: { id: owner.cafeId }, data: { nameDays: 90 } })
  cafe.pass(90 * DAY_MS)
  expect(await tidy(world, marks)).toBe(0)
  cafe.pass(1)
  expect(await tidy(world, marks)).toBe(1)
  expect(await answer()).toEqual({ name: null, changed: 'Oat drink', liking: 7 })
  expect(await tidy(world, marks)).toBe(0)
  expect(await noted('names-forgotten')).toBe(1)

  const row = await db.homeAnswer.findFirstOrThrow()
  expect(await forgetHome(world, marks, stranger, row.id, true)).toMatchObject({ reason: 'gone' })
  expect(await forgetHome(world, marks, owner, row.id, true)).toMatchObject({ ok: true })
  expect(await forgetHome(world, marks, owner, row.id, true)).toMatchObject({ ok: true })
  expect(await answer()).toEqual({ name: null, changed: null, liking: 7 })
  expect(await noted('home-answer-forgotten')).toBe(1)

  // an older copy that comes back has both in it
  await db.homeAnswer.update({ where: { id: row.id }, data: { name: 'Zwenna', changed: 'Oat drink', at: world.now() } })
  expect(await tidy(world, marks)).toBe(1)
  expect(await answer()).toEqual({ name: null, changed: null, liking: 7 })
})
