/** The books of a house that our own acts filled balance; each thing that must hold is broken once, and heard alone. */
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { roles } from '@/lib/auth/rights'
import { checkBooks, type BookCode, type Complaint } from '@/lib/db/books/check-books'
import { openDatabase } from '@/lib/db/engine/client'
import { migrate } from '@/lib/db/engine/migrate'
import { foundDemoHouse } from '@/lib/tasks/house/found-demo-house'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { copyPanel } from '@/lib/tasks/plan/copy-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { codeSteps } from '@/lib/tasks/upgrade/code-steps'
import { worldOf, type Actor, type World } from '@/lib/tasks/world'
import { designForTest, differencePhone } from '../support/difference-panel'
import { choicePhone } from '../support/choice-panel'
import { holdOrder, orderBreaks } from '../support/order-books'
import { freshDatabase } from '../support/fresh-database'
import { LANDED } from '../support/landed'

let folder: string
let demo: string
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'sipwright-books-'))
  demo = join(folder, 'demo.db')
  const fresh = await freshDatabase()
  const world = worldOf(fresh.db)
  await foundDemoHouse(world)
  const owner = await fresh.db.membership.findFirstOrThrow({ select: { cafeId: true, userId: true } })
  const closed = await fresh.db.panel.findFirstOrThrow({ where: { title: 'How strong?' } })
  expect(await copyPanel(world, owner, closed.id)).toMatchObject({ ok: true })
  await holdChoice(world, owner)
  await holdDifference(world, owner)
  await holdOrder(world, owner)
  await fresh.db.$disconnect()
  copyFileSync(fresh.file, demo)
  await fresh.close()
  write(demo, layBeside)
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** A panel of two cups, open, with an answer at seat 1 and a free seat 2: a kind of panel the demo has none of. */
async function holdChoice(world: World, actor: Actor): Promise<void> {
  const recipe = await world.db.recipe.findFirstOrThrow({ where: { name: 'Iced date-cardamom coffee' } })
  const trials = await world.db.trial.findMany({ where: { recipeId: recipe.id, number: { in: [1, 2] } } })
  const cups = trials.map(({ id }) => id)
  const [pairA = null, pairB = null] = cups
  const planned = await planPanel(world, actor, recipe.id, {
    ...{ title: 'Which one?', publicTitle: 'Two cold coffees', question: 'Which one?', cups, pairA, pairB },
    ...{ duplicate: null, aspects: [], seatCount: 2, cupsPerTaster: null, aim: 'better', primaryKind: 'one-pair' },
    ...{ smallestDifference: 0, notWorseMargin: null, sampleMl: 40, seenThrough: null, nothingSeen: true },
    asks: { kind: 'choice', none: false, share: 65 },
  })
  const panelId = planned.ok ? planned.value : ''
  expect(await openPanel(world, actor, panelId, true)).toMatchObject({ ok: true })
  const ana = await choicePhone(world, panelId)
  expect(await ana.answer([1])).toMatchObject({ ok: true })
}

/** Two tetrads each at two seats, open, with an answer at seat 1: the kind whose rules are the strictest. */
async function holdDifference(world: World, actor: Actor): Promise<void> {
  const recipe = await world.db.recipe.findFirstOrThrow({ where: { name: 'Iced date-cardamom coffee' } })
  const trials = await world.db.trial.findMany({ where: { recipeId: recipe.id, number: { in: [1, 2] } } })
  const cups = trials.map(({ id }) => id)
  const [pairA = null, pairB = null] = cups
  const planned = await planPanel(world, actor, recipe.id, {
    ...{ title: 'Told apart?', publicTitle: 'Four cold coffees', question: 'Can they?', cups, pairA, pairB },
    ...{ duplicate: null, aspects: [], seatCount: 2, cupsPerTaster: null, aim: 'better', primaryKind: 'one-pair' },
    ...{ smallestDifference: 0, notWorseMargin: null, sampleMl: 30, seenThrough: null, nothingSeen: true },
    asks: designForTest({ protocol: 'tetrad', each: 2 }),
  })
  const panelId = planned.ok ? planned.value : ''
  expect(await openPanel(world, actor, panelId, true)).toMatchObject({ ok: true })
  const ana = await differencePhone(world, panelId)
  expect(await ana.answer([1, 2])).toMatchObject({ ok: true })
}

function write(file: string, sql: string): void {
  const db = new Database(file)
  db.pragma('foreign_keys = OFF')
  db.exec(sql)
  db.close()
}

async function heard(file: string): Promise<readonly Complaint[]> {
  const db = openDatabase(`file:${file}`)
  try {
    return await checkBooks(db)
  } finally {
    await db.$disconnect()
  }
}

const NOON = `'2026-11-27T12:00:00.000+00:00'`
const cafe = `(SELECT id FROM Cafe WHERE isDemo)`
const recipe = (name: string) => `(SELECT id FROM Recipe WHERE name = '${name}')`
const [iced, steep] = [recipe('Iced date-cardamom coffee'), recipe('Cold steep with cardamom')]
const panel = (title: string) => `(SELECT id FROM Panel WHERE title = '${title}')`
const [sweet, milk, oat, strong] = ['How sweet?', 'Is fresh milk as good?', 'Oat drink?', 'How strong?'].map(panel)
const draft = `(SELECT id FROM Panel WHERE stage = 'draft')`
const two = panel('Which one?')
const apart = panel('Told apart?')
const seatOf = (of: string | undefined, number: number) =>
  `(SELECT id FROM Seat WHERE panelId = ${of} AND number = ${number})`
const servingOf = (of: string | undefined, number: number) =>
  `(SELECT id FROM Serving WHERE seatId = ${seatOf(of, number)} AND position = 1)`
const setAt = (number: number) => `(SELECT id FROM ServingSet WHERE seatId = ${seatOf(two, number)})`
const attributeOf = (of: string | undefined) => `(SELECT id FROM PanelAttribute WHERE panelId = ${of} AND position = 0)`
const trial = (of: string, number: number) => `(SELECT id FROM Trial WHERE recipeId = ${of} AND number = ${number})`
const owner = `(SELECT userId FROM Membership WHERE cafeId = ${cafe} AND role = 'owner')`

/** A café that has nothing but its owner, a batch inside a batch, a cost level with an alternative, a sheet for home with an answer: things the demo has none of. */
const layBeside = `
  INSERT INTO Cafe (id, name, createdAt) VALUES ('other', 'Second kiosk', ${NOON});
  INSERT INTO Membership (id, cafeId, userId, role, createdAt) VALUES ('m2', 'other', ${owner}, 'owner', ${NOON});
  INSERT INTO Preparation (id, cafeId, name, kind, createdAt) VALUES ('p1', ${cafe}, 'Inner', 'other', ${NOON});
  INSERT INTO PreparationBatch (id, cafeId, preparationId, number, createdAt)
    VALUES ('b1', ${cafe}, 'p1', 1, ${NOON}), ('b2', ${cafe}, 'p1', 2, ${NOON});
  INSERT INTO BatchInput (id, cafeId, batchId, position, inputBatchId, amountMg, typed, unit)
    VALUES ('i1', ${cafe}, 'b2', 1, 'b1', 1000, '1', 'g');
  INSERT INTO PreparationFormula (id, cafeId, preparationId, version, createdAt)
    VALUES ('f1', ${cafe}, 'p1', 1, ${NOON}), ('f2', ${cafe}, 'p1', 2, ${NOON});
  INSERT INTO FormulaInput (id, cafeId, formulaId, position, ingredientId, amountMg, typed, unit)
    VALUES ('fi1', ${cafe}, 'f2', 1, (SELECT id FROM Ingredient WHERE cafeId = ${cafe} LIMIT 1), 1000, '1', 'g');
  INSERT INTO CostLevel (id, cafeId, recipeId, name, position)
    VALUES ('l1', ${cafe}, ${iced}, 'Economy', 1), ('l2', ${cafe}, ${steep}, 'Economy', 1);
  INSERT INTO LineAlternative (id, cafeId, lineId, costLevelId, ingredientId)
    VALUES ('a1', ${cafe}, (SELECT id FROM TrialLine WHERE trialId = ${trial(iced, 1)} AND position = 1), 'l1',
      (SELECT id FROM Ingredient WHERE cafeId = ${cafe} LIMIT 1));
  INSERT INTO HomeSheet (id, cafeId, recipeId, trialId, version, sheet, mark, createdAt, createdById)
    VALUES ('h1', ${cafe}, ${iced}, ${trial(iced, 1)}, 1, '{}', 'BCDF-GHJK', ${NOON}, ${owner});
  INSERT INTO HomeAnswer (id, cafeId, homeSheetId, key, liking, source, at, enteredById)
    VALUES ('ha', ${cafe}, 'h1', 'k', 7, 'pasted', ${NOON}, ${owner});
`

const lateScore = (of: string | undefined, value = 5) =>
  `INSERT INTO LateScore (id, cafeId, servingId, attributeId, value, revision, key, at)
   VALUES ('late', ${cafe}, ${servingOf(of, 1)}, ${attributeOf(of)}, ${value}, 1, 'k', ${NOON})`

const breaks: Readonly<Record<Exclude<BookCode, 'not-readable'>, string>> = {
  'other-cafe': `UPDATE IngredientPrice SET cafeId = 'other' WHERE rowid = 1`,
  'other-panel': `UPDATE Taster SET panelId = ${milk} WHERE seatId = ${seatOf(sweet, 1)}`,
  'other-recipe': `UPDATE Trial SET parentId = ${trial(iced, 1)} WHERE id = ${trial(steep, 1)}`,
  'act-of-nobody': `UPDATE Panel SET openedById = 'gone' WHERE id = ${sweet}`,
  'cafe-without-owner': `UPDATE Membership SET role = 'viewer' WHERE id = 'm2'`,
  'role-unknown': `INSERT INTO Membership (id, cafeId, userId, role, createdAt) VALUES ('m3', 'other', 'u', 'cook', ${NOON});
    INSERT INTO User (id, email, name, passwordHash, createdAt) VALUES ('u', 'u@example.test', 'U', '-', ${NOON})`,
  'forgotten-member-stays': `INSERT INTO User (id, email, name, passwordHash, createdAt, forgottenAt)
    VALUES ('u', 'forgotten u', '', '', ${NOON}, ${NOON});
    INSERT INTO Membership (id, cafeId, userId, role, createdAt) VALUES ('m3', 'other', 'u', 'viewer', ${NOON})`,
  'user-half-forgotten': `INSERT INTO User (id, email, name, passwordHash, createdAt, forgottenAt)
    VALUES ('u', 'forgotten u', 'Ina', '', ${NOON}, ${NOON})`,
  'invitation-to-nothing': `INSERT INTO OneTimeLink (id, kind, tokenHash, role, createdAt, expiresAt)
    VALUES ('o', 'invite', 'h', 'viewer', ${NOON}, ${NOON})`,
  'batch-numbers': `UPDATE PreparationBatch SET number = 4 WHERE id = 'b2'`,
  'input-positions': `UPDATE BatchInput SET position = 2 WHERE id = 'i1'`,
  'input-of-one-part': `UPDATE BatchInput SET inputBatchId = NULL WHERE id = 'i1'`,
  'batch-in-itself': `INSERT INTO BatchInput (id, cafeId, batchId, position, inputBatchId, amountMg, typed, unit)
    VALUES ('i2', ${cafe}, 'b1', 1, 'b2', 1000, '1', 'g')`,
  'pack-past-its-opening': `INSERT INTO OpenedPack (id, cafeId, ingredientId, openedAt, doneById)
    VALUES ('k1', ${cafe}, (SELECT id FROM Ingredient WHERE cafeId = ${cafe} LIMIT 1), ${NOON}, ${owner})`,
  'reading-half-struck': `INSERT INTO CoolingReading (id, cafeId, batchId, key, deciC, at, struckById)
    VALUES ('r1', ${cafe}, 'b1', 'k', 570, ${NOON}, ${owner})`,
  'dose-of-nothing': `UPDATE Preparation SET pumpUl = 0 WHERE id = 'p1'`,
  'count-half-kept': `UPDATE PreparationBatch SET shelfMg = 1000 WHERE id = 'b1'`,
  'formula-versions': `UPDATE PreparationFormula SET version = 4 WHERE id = 'f2'`,
  'formula-positions': `UPDATE FormulaInput SET position = 2 WHERE id = 'fi1'`,
  'formula-input-of-one-part': `UPDATE FormulaInput SET ingredientId = NULL WHERE id = 'fi1'`,
  'formula-in-itself': `UPDATE FormulaInput SET ingredientId = NULL, preparationId = 'p1' WHERE id = 'fi1'`,
  'batch-by-other-formula': `UPDATE PreparationBatch SET formulaId = 'f1'
    WHERE id = (SELECT id FROM PreparationBatch WHERE cafeId = ${cafe} AND preparationId <> 'p1' LIMIT 1)`,
  'poured-batch-not-frozen': `UPDATE PreparationBatch SET frozenAt = ${NOON} WHERE id = 'b2'`,
  'change-half-told': `INSERT INTO UpstreamChange (id, cafeId, ingredientId, what, at)
    VALUES ('u', ${cafe}, (SELECT id FROM Ingredient WHERE cafeId = ${cafe} LIMIT 1), 'price', ${NOON})`,
  'size-price-below-nothing': `INSERT INTO SizePrice (id, cafeId, recipeId, vesselId, priceMinor, changedAt)
    VALUES ('s', ${cafe}, ${iced}, (SELECT id FROM Vessel WHERE cafeId = ${cafe} LIMIT 1), -1, ${NOON})`,
  'shares-beyond-the-glass': `UPDATE Recipe SET sizeIceBp = 6000, sizeCoffeeBp = 5000 WHERE id = ${iced}`,
  'scale-shows-nothing': `UPDATE Cafe SET doseScaleMg = 0 WHERE id = ${cafe}`,
  'trial-numbers': `UPDATE Trial SET number = 99 WHERE id = ${trial(iced, 2)}`,
  'line-positions': `UPDATE TrialLine SET position = 50 WHERE trialId = ${trial(iced, 1)} AND position = 2`,
  'step-positions': `UPDATE TrialStep SET position = 0 WHERE trialId = ${trial(iced, 1)} AND position = 1`,
  'level-positions': `UPDATE CostLevel SET position = 2 WHERE id = 'l1'`,
  'line-of-one-part': `UPDATE LineAlternative SET batchId = 'b1' WHERE id = 'a1'`,
  'line-of-other-preparation': `UPDATE TrialLine SET preparationId = 'p1'
    WHERE id = (SELECT id FROM TrialLine WHERE batchId IS NOT NULL AND batchId NOT IN ('b1', 'b2') LIMIT 1)`,
  'poured-batch-not-said': `UPDATE TrialLine SET ingredientId = NULL, batchId = NULL, preparationId = 'p1'
    WHERE trialId = ${trial(iced, 2)} AND position = 3`,
  'level-of-other-recipe': `UPDATE LineAlternative SET costLevelId = 'l2' WHERE id = 'a1'`,
  'trial-from-itself': `UPDATE Trial SET parentId = ${trial(iced, 2)} WHERE id = ${trial(iced, 1)}`,
  'frozen-without-sheet': `UPDATE Trial SET frozenSheet = NULL WHERE id = ${trial(iced, 1)}`,
  'photo-half-kept': `INSERT INTO Photo (id, cafeId, recipeId, type, width, height, createdAt)
    VALUES ('ph', ${cafe}, ${iced}, 'image/jpeg', 3, 2, ${NOON})`,
  'house-versions': `UPDATE Decision SET version = 5 WHERE panelId = ${sweet}`,
  'decision-half-said': `UPDATE Decision SET trialId = NULL WHERE kind = 'keep'`,
  'decision-on-unclosed': `INSERT INTO Decision (id, cafeId, recipeId, panelId, kind, reason, at)
    VALUES ('d', ${cafe}, ${iced}, ${oat}, 'test-again', 'Too early', ${NOON})`,
  'adopted-not-frozen': `INSERT INTO Trial (id, cafeId, recipeId, number, name, method, createdAt)
      SELECT 't', ${cafe}, ${steep}, 3, 'Draft', 'immersion', ${NOON};
    INSERT INTO Decision (id, cafeId, recipeId, kind, trialId, version, reason, at)
    VALUES ('d', ${cafe}, ${steep}, 'adopt', 't', 1, 'On the menu', ${NOON})`,
  'adopted-not-served': `UPDATE Decision SET trialId = ${trial(iced, 4)} WHERE panelId = ${sweet}`,
  'home-sheet-versions': `UPDATE HomeSheet SET version = 3 WHERE id = 'h1'`,
  'home-sheet-half-withdrawn': `UPDATE HomeSheet SET withdrawnAt = ${NOON} WHERE id = 'h1'`,
  'home-answer-off-the-scale': `UPDATE HomeAnswer SET liking = 10 WHERE id = 'ha'`,
  'home-answer-from-nowhere': `UPDATE HomeAnswer SET source = 'link' WHERE id = 'ha'`,
  'stage-unknown': `UPDATE Panel SET stage = 'Open' WHERE id = ${oat}`,
  'panel-half-opened': `UPDATE Panel SET orderSeed = NULL WHERE id = ${sweet}`,
  'panel-half-closed': `UPDATE Panel SET closingAnswer = NULL, closingAnswerAt = NULL WHERE id = ${sweet}`,
  'panel-half-called-off': `UPDATE Panel SET calledOffAt = ${NOON} WHERE id = ${oat}`,
  'decided-without-decision': `DELETE FROM Decision WHERE panelId = ${milk}`,
  'cup-places': `UPDATE Cup SET place = 7 WHERE panelId = ${sweet} AND place = 1`,
  'cup-designs': `UPDATE Cup SET design = 7 WHERE panelId = ${sweet} AND place = 1`,
  'cup-without-key': `UPDATE Cup SET jugLetter = NULL WHERE panelId = ${sweet} AND place = 1`,
  'draft-with-key': `UPDATE Cup SET jugLetter = 'K' WHERE panelId = ${draft} AND place = 1`,
  'cup-of-other-recipe': `UPDATE Cup SET trialId = ${trial(steep, 1)} WHERE panelId = ${oat} AND place = 1`,
  'trial-served-twice': `UPDATE Cup SET trialId = (SELECT trialId FROM Cup WHERE panelId = ${oat} AND place = 1)
    WHERE panelId = ${oat} AND place = 0`,
  'copy-of-nothing': `UPDATE Cup SET isDuplicate = true WHERE panelId = ${oat} AND place = 1`,
  'poured-trial-not-frozen': `UPDATE Trial SET frozenAt = NULL, frozenSheet = NULL WHERE id = ${trial(iced, 3)}`,
  'pair-not-served': `UPDATE Panel SET primaryTrialAId = ${trial(iced, 1)} WHERE id = ${strong}`,
  'attribute-positions': `UPDATE PanelAttribute SET position = 3 WHERE panelId = ${sweet} AND position = 1`,
  'nothing-asked': `DELETE FROM PanelAttribute WHERE panelId = ${draft}`,
  'seat-numbers': `UPDATE Seat SET number = 90 WHERE panelId = ${oat} AND number = 12`,
  'seats-not-dealt': `UPDATE Panel SET seatCount = 13 WHERE id = ${oat}`,
  'link-to-unclosed': `INSERT INTO ReadLink (id, cafeId, panelId, tokenHash, createdAt)
    VALUES ('r', ${cafe}, ${oat}, 'h', ${NOON})`,
  'serving-positions': `UPDATE Serving SET position = 9 WHERE id = ${servingOf(sweet, 1)}`,
  'tray-not-full': `DELETE FROM Serving WHERE seatId = ${seatOf(oat, 12)} AND position = 2`,
  'code-not-three-digits': `UPDATE Serving SET code = '12a' WHERE id = ${servingOf(oat, 12)}`,
  'taken-without-taster': `DELETE FROM Taster WHERE seatId = ${seatOf(sweet, 1)}`,
  'taster-on-free-seat': `INSERT INTO Taster (id, cafeId, panelId, seatId, name, consentAt, cautionsAt, declaredAt)
    VALUES ('t', ${cafe}, ${oat}, ${seatOf(oat, 12)}, 'Ina', ${NOON}, ${NOON}, ${NOON})`,
  'phone-at-free-seat': `UPDATE Seat SET browserHash = 'h' WHERE id = ${seatOf(oat, 12)}`,
  'paper-at-free-seat': `UPDATE Seat SET onPaper = true WHERE id = ${seatOf(oat, 12)}`,
  'barred-half-said': `UPDATE Seat SET barredAt = ${NOON} WHERE id = ${seatOf(oat, 1)}`,
  'aside-half-said': `UPDATE Seat SET setAsideAt = ${NOON}, setAsideWhy = 'Left early' WHERE id = ${seatOf(oat, 1)}`,
  'repeat-of-elsewhere': `UPDATE Seat SET repeatOfSeatId = ${seatOf(sweet, 1)} WHERE id = ${seatOf(oat, 1)}`,
  'taster-half-forgotten': `UPDATE Taster SET name = NULL WHERE seatId = ${seatOf(oat, 1)}`,
  'question-unknown': `UPDATE PanelAttribute SET kind = 'stars' WHERE position = 0 AND panelId = ${oat}`,
  'score-off-the-scale': `UPDATE Score SET value = 10 WHERE servingId = ${servingOf(oat, 1)}`,
  'score-of-other-panel': `UPDATE Score SET attributeId = ${attributeOf(milk)} WHERE servingId = ${servingOf(oat, 1)}`,
  'score-at-free-seat': `INSERT INTO Score (id, cafeId, servingId, attributeId, value, revision, key, source, at)
    VALUES ('x', ${cafe}, ${servingOf(oat, 12)}, ${attributeOf(oat)}, 5, 1, 'k', 'phone', ${NOON})`,
  'score-while-not-open': `UPDATE Panel SET stage = 'called-off', calledOffAt = ${NOON} WHERE id = ${oat};
    DELETE FROM Score WHERE servingId IN (SELECT id FROM Serving WHERE panelId = ${oat}) AND servingId <> ${servingOf(oat, 1)}`,
  'late-while-open': lateScore(oat),
  'revision-not-counted': `UPDATE Score SET revision = 0 WHERE servingId = ${servingOf(oat, 1)}`,
  'kind-unknown': `UPDATE Panel SET kind = 'stars', design = '{}' WHERE id = ${draft};
    UPDATE PanelAttribute SET about = 'set', kind = 'choose' WHERE panelId = ${draft} AND position = 0;
    DELETE FROM PanelAttribute WHERE panelId = ${draft} AND position > 0`,
  'question-of-other-kind': `UPDATE PanelAttribute SET about = 'serving', kind = 'liking-9' WHERE panelId = ${two};
    DELETE FROM SetAnswer WHERE attributeId = ${attributeOf(two)}`,
  'set-numbers': `UPDATE ServingSet SET number = 2 WHERE id = ${setAt(1)}`,
  'serving-beside-its-sets': `UPDATE Serving SET setId = NULL WHERE seatId = ${seatOf(two, 2)};
    DELETE FROM ServingSet WHERE id = ${setAt(2)}`,
  'set-of-other-seat': `UPDATE ServingSet SET seatId = ${seatOf(two, 2)}, number = 2 WHERE id = ${setAt(1)};
    DELETE FROM SetAnswer WHERE attributeId = ${attributeOf(two)}`,
  'set-not-full': `UPDATE Serving SET cupId = (SELECT cupId FROM Serving WHERE id = ${servingOf(two, 2)}), pouring = 2
    WHERE seatId = ${seatOf(two, 2)} AND position = 2`,
  'set-apart-from-servings': `UPDATE ServingSet SET lockedAt = ${NOON} WHERE id = ${setAt(1)}`,
  'set-skip-half-said': `UPDATE ServingSet SET skippedAt = ${NOON}, skipReason = 'rather-not', lockedAt = ${NOON} WHERE id = ${setAt(2)};
    UPDATE Serving SET skippedAt = ${NOON}, skipReason = 'rather-not', lockedAt = ${NOON} WHERE seatId = ${seatOf(two, 2)}`,
  'set-done-without-answer': `UPDATE ServingSet SET lockedAt = ${NOON} WHERE id = ${setAt(2)};
    UPDATE Serving SET lockedAt = ${NOON} WHERE seatId = ${seatOf(two, 2)}`,
  'answer-not-readable': `UPDATE SetAnswer SET answer = 'the left one' WHERE attributeId = ${attributeOf(two)}`,
  'answer-outside-its-set': `UPDATE SetAnswer SET answer = '[3]' WHERE attributeId = ${attributeOf(two)}`,
  'answer-to-other-question': `UPDATE SetAnswer SET answer = '[]' WHERE attributeId = ${attributeOf(two)}`,
  'answer-of-other-panel': `UPDATE SetAnswer SET attributeId = ${attributeOf(milk)} WHERE attributeId = ${attributeOf(two)}`,
  'answer-at-free-seat': `INSERT INTO SetAnswer (id, cafeId, setId, attributeId, answer, revision, key, source, at)
    VALUES ('x', ${cafe}, ${setAt(2)}, ${attributeOf(two)}, '[1]', 1, 'k', 'phone', ${NOON})`,
  'answer-while-not-open': `UPDATE Panel SET stage = 'called-off', calledOffAt = ${NOON} WHERE id = ${two}`,
  'uncounted-unknown': `INSERT INTO UncountedAnswer (id, cafeId, setId, attributeId, why, answer, revision, key, source, at, uncountedAt)
    VALUES ('x', ${cafe}, ${setAt(1)}, ${attributeOf(two)}, 'late', '[1]', 1, 'k', 'phone', ${NOON}, ${NOON})`,
  'answer-revision-not-counted': `UPDATE SetAnswer SET revision = 0`,
  'score-in-a-set': `UPDATE Score SET servingId = ${servingOf(two, 1)}, attributeId = ${attributeOf(two)}
    WHERE servingId = ${servingOf(oat, 1)} AND attributeId = ${attributeOf(oat)}`,
  'difference-plan-unknown': `UPDATE Panel SET design = json_set(design, '$.share', 0) WHERE id = ${apart}`,
  'difference-asked-otherwise': `UPDATE PanelAttribute SET options = '{"protocol":"triangle","property":null}' WHERE panelId = ${apart};
    DELETE FROM SetAnswer WHERE attributeId = ${attributeOf(apart)}`,
  'sets-not-as-many-as-planned': `DELETE FROM Serving WHERE seatId = ${seatOf(apart, 2)} AND position > 4;
    UPDATE Serving SET pouring = 1 + (SELECT count(*) FROM Serving w WHERE w.seatId = Serving.seatId AND w.cupId = Serving.cupId AND w.position < Serving.position)
      WHERE seatId = ${seatOf(apart, 2)};
    DELETE FROM ServingSet WHERE seatId = ${seatOf(apart, 2)} AND number = 2`,
  'set-poured-otherwise': `UPDATE Serving SET pouring = 50 + position WHERE seatId = ${seatOf(apart, 2)};
    UPDATE Serving SET cupId = (SELECT cupId FROM Serving WHERE id = ${servingOf(apart, 2)})
      WHERE seatId = ${seatOf(apart, 2)} AND position < 4;
    UPDATE Serving SET pouring = 1 + (SELECT count(*) FROM Serving w WHERE w.seatId = Serving.seatId AND w.cupId = Serving.cupId AND w.position < Serving.position)
      WHERE seatId = ${seatOf(apart, 2)}`,
  'pourings-not-counted': `UPDATE Serving SET pouring = 9 WHERE id = ${servingOf(apart, 2)}`,
  'answer-against-its-method': `UPDATE SetAnswer SET answer = '[2,1]' WHERE attributeId = ${attributeOf(apart)}`,
  ...orderBreaks,
  'skip-half-said': `UPDATE Serving SET skippedAt = ${NOON} WHERE id = ${servingOf(oat, 1)}`,
}

test('the books of the demo café balance', async () => {
  expect(await heard(demo)).toEqual([])
})

test.each(LANDED)('and those of %s, brought up to date', async (name) => {
  const file = join(folder, name)
  copyFileSync(join('test/fixtures', name), file)
  await migrate(`file:${file}`, codeSteps)
  expect(await heard(file)).toEqual([])
})

test('a score that came after closing stands beside, and is no fault', async () => {
  const file = join(folder, 'late.db')
  copyFileSync(demo, file)
  write(file, lateScore(sweet))
  expect(await heard(file)).toEqual([])
  write(file, `UPDATE LateScore SET value = 0`)
  expect((await heard(file)).map(({ code }) => code)).toEqual(['score-off-the-scale'])
})

test.each(Object.entries(breaks))('%s is heard, alone, and where it is', async (code, sql) => {
  const file = join(folder, `${code}.db`)
  copyFileSync(demo, file)
  write(file, sql)
  const complaints = await heard(file)
  expect([...new Set(complaints.map((one) => one.code))], JSON.stringify(complaints)).toEqual([code])
  for (const { values } of complaints) expect(values['id']).toMatch(/./)
  rmSync(file)
})

test('what cannot be looked at is said, and the rest is looked at all the same', async () => {
  const file = join(folder, 'torn.db')
  copyFileSync(demo, file)
  write(file, `DROP TABLE ReadLink; UPDATE Seat SET browserHash = 'h' WHERE id = ${seatOf(oat, 12)}`)
  expect(await heard(file)).toEqual([
    { code: 'not-readable', values: { rule: 'link-to-unclosed' } },
    { code: 'phone-at-free-seat', values: { id: expect.any(String) as string } },
  ])
})

test('every role of the table of rights is one', async () => {
  const file = join(folder, 'roles.db')
  copyFileSync(demo, file)
  const rows = roles.map((role, place) => `('r${place}', 'other', 'u${place}', '${role}', ${NOON})`)
  const users = roles.map((_, place) => `('u${place}', 'u${place}@example.test', 'U', '-', ${NOON})`)
  write(
    file,
    `INSERT INTO User (id, email, name, passwordHash, createdAt) VALUES ${users.join(', ')};
     INSERT INTO Membership (id, cafeId, userId, role, createdAt) VALUES ${rows.join(', ')}`,
  )
  expect(await heard(file)).toEqual([])
})
