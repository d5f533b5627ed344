import { afterEach, beforeEach, expect, test } from 'vitest'
import { readDiary } from '@/lib/tasks/house/read-diary'
import { readDiaryFolds, type DiaryPiece } from '@/lib/tasks/house/read-diary-folds'
import { pageOfSubject, sayBetween, saySteps } from '@/app/(house)/diary/say-act'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { archiveRecipe } from '@/lib/tasks/recipe/keep-recipe'
import { noteAct } from '@/lib/tasks/world'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

test('every line is reached page by page, though most are of one millisecond', async () => {
  const { world, owner, recipeId } = cafe
  // the clock of a test stands still, so all these are of one millisecond
  for (let turn = 0; turn < 230; turn++) await archiveRecipe(world, owner, recipeId, turn % 2 === 0)
  const there = await world.db.auditRow.count()
  const seen: string[] = []
  let below: string | null = null
  for (;;) {
    const { lines, more } = await readDiary(world, owner, below)
    seen.push(...lines.map(({ id }) => id))
    if (!more) break
    below = lines.at(-1)?.id ?? null
  }
  expect(there).toBe(230)
  expect(seen.length).toBe(there)
  expect(new Set(seen).size).toBe(there)
})

test('a line names what it is about, as long as that is there, and never what belongs to another café', async () => {
  const { world, owner, db, stranger } = cafe
  const trial = await db.trial.findFirstOrThrow({ where: { id: cafe.trialIds[0] } })
  const batch = await db.preparationBatch.findFirstOrThrow({ include: { preparation: true } })
  const panel = await planPanel(world, owner, cafe.recipeId, cafe.plan())
  const note = (subjectKind: string, subjectId: string) =>
    world.db.$transaction((tx) => noteAct(world, tx, owner, { act: 'seen', subjectKind, subjectId }))
  await note('trial', trial.id)
  await note('batch', batch.id)
  await note('trial', 'gone')
  const { lines } = await readDiary(world, owner, null)
  const subjects = new Map(lines.map(({ subjectId, subject }) => [subjectId, subject]))
  expect(subjects.get(trial.id)).toEqual({ name: `${trial.number}. ${trial.name}`, ownerId: null })
  expect(subjects.get(batch.id)).toEqual({ name: `${batch.preparation.name}, batch 1`, ownerId: batch.preparation.id })
  expect(subjects.get(panel.ok ? panel.value : '')).toEqual({ name: 'Kiosk question', ownerId: null })
  expect(subjects.get('gone')).toBeNull()
  expect(lines.map(pageOfSubject)).toContain(`/trials/${trial.id}`)
  await world.db.$transaction((tx) =>
    noteAct(world, tx, stranger, { act: 'seen', subjectKind: 'trial', subjectId: trial.id }),
  )
  expect((await readDiary(world, stranger, null)).lines[0]?.subject).toBeNull()
})

test('a line of another café opens no page of its diary', async () => {
  const { world, owner } = cafe
  const mine = await readDiary(world, owner, null)
  const other = await readDiary(world, { ...owner, cafeId: 'another-cafe' }, mine.lines[0]?.id ?? null)
  expect(other.lines).toEqual([])
})

/** Lines as tasters and the house wrote them, one a second from the first on. */
async function lay(
  cafeId: string,
  acts: readonly (readonly [actor: 'taster' | 'member', act: string, subject: Subject])[],
) {
  const begin = Date.parse('2026-03-14T18:00:00Z')
  const at = (place: number) => new Date(begin + place * 1000)
  const laid = await cafe.db.auditRow.count()
  const data = acts.map(([actorKind, act, subject], place) => ({
    id: `line-${String(laid + place).padStart(7, '0')}`,
    cafeId,
    at: at(laid + place),
    actorKind,
    actorId: actorKind === 'member' ? cafe.owner.userId : null,
    act,
    subjectKind: subject.kind,
    subjectId: subject.id,
  }))
  for (let from = 0; from < data.length; from += 500)
    await cafe.db.auditRow.createMany({ data: data.slice(from, from + 500) })
}
type Subject = { readonly kind: string; readonly id: string }

async function openOne(title: string): Promise<{ seat: Subject; serving: Subject; panel: Subject }> {
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan({ title }))
  if (!planned.ok) throw new Error(planned.reason)
  await openPanel(cafe.world, cafe.owner, planned.value)
  const seat = await cafe.db.seat.findFirstOrThrow({ where: { panelId: planned.value, number: 2 } })
  const serving = await cafe.db.serving.findFirstOrThrow({ where: { seatId: seat.id } })
  return {
    seat: { kind: 'seat', id: seat.id },
    serving: { kind: 'serving', id: serving.id },
    panel: { kind: 'panel', id: planned.value },
  }
}

/** Every piece of every page, as somebody reads on. */
async function readOn(reader = cafe.owner) {
  const pages: Awaited<ReturnType<typeof readDiaryFolds>>[] = []
  let below: string | null = null
  for (;;) {
    const page: Awaited<ReturnType<typeof readDiaryFolds>> = await readDiaryFolds(cafe.world, reader, below)
    pages.push(page)
    if (!page.more) return pages
    below = page.last
  }
}
const say = (piece: DiaryPiece) =>
  piece.kind === 'line' ? piece.line.act : `${piece.fold.steps} in ${piece.fold.panel?.title ?? 'nothing'}`

test('what tasters do one after the other is one fold, what members do stands by itself, in the order of the clock', async () => {
  const { seat, serving, panel } = await openOne('Evening sitting')
  await cafe.db.auditRow.deleteMany()
  await lay(cafe.owner.cafeId, [
    ['member', 'panel-opened', panel],
    ['taster', 'seat-taken', seat],
    ['taster', 'score-stored', serving],
    ['taster', 'score-stored', serving],
    ['taster', 'cup-finished', serving],
    ['member', 'servings-poured', panel],
    ['taster', 'comment-stored', serving],
    ['member', 'panel-closed', panel],
  ])
  const { pieces, more } = await readDiaryFolds(cafe.world, cafe.owner, null)
  expect(more).toBe(false)
  expect(pieces.map(say)).toEqual([
    'panel-closed',
    'comment-stored',
    'servings-poured',
    '4 in Evening sitting',
    'panel-opened',
  ])
  const fold = pieces.flatMap((piece) => (piece.kind === 'fold' ? [piece.fold] : []))[0]
  expect(fold?.acts[0]).toEqual({ act: 'score-stored', count: 2 })
  expect(fold && [saySteps(fold), sayBetween(fold, 'UTC')]).toEqual([
    'tasters: 4 steps (scores, next cup, seats taken) in panel',
    '18:00',
  ])
  expect(fold?.lines.map(({ act, subject }) => [act, subject?.name])).toEqual([
    ['cup-finished', 'seat 2, Evening sitting'],
    ['score-stored', 'seat 2, Evening sitting'],
    ['score-stored', 'seat 2, Evening sitting'],
    ['seat-taken', 'seat 2, Evening sitting'],
  ])
  expect(fold?.lines.map(pageOfSubject)).toEqual(Array(4).fill(`/panels/${panel.id}`))
  // Line by line from the line above the fold on.
  const { lines } = await readDiary(cafe.world, cafe.owner, fold?.below ?? null)
  expect(lines[0]?.id).toBe(fold?.id)
})

test('two panels at once have a fold each, and what is gone has one without a panel', async () => {
  const [one, other] = [await openOne('Morning sitting'), await openOne('Evening sitting')]
  await cafe.db.auditRow.deleteMany()
  const gone = { kind: 'serving', id: 'gone' }
  await lay(cafe.owner.cafeId, [
    ['taster', 'score-stored', one.serving],
    ['taster', 'score-stored', other.serving],
    ['taster', 'score-stored', gone],
    ['taster', 'score-stored', one.serving],
    ['taster', 'score-stored', other.serving],
    ['taster', 'score-stored', gone],
  ])
  expect((await readDiaryFolds(cafe.world, cafe.owner, null)).pieces.map(say)).toEqual([
    '2 in nothing',
    '2 in Evening sitting',
    '2 in Morning sitting',
  ])
  expect((await readDiaryFolds(cafe.world, cafe.stranger, null)).pieces).toEqual([])
})

test('a long evening, and many short ones, are read page by page with no line lost or told twice', async () => {
  const { serving, panel } = await openOne('Evening sitting')
  await cafe.db.auditRow.deleteMany()
  const steps = (howMany: number) => Array.from({ length: howMany }, () => ['taster', 'score-stored', serving] as const)
  await lay(cafe.owner.cafeId, [
    ...steps(2345),
    ['member', 'panel-closed', panel],
    ...Array.from({ length: 130 }, () => [...steps(3), ['member', 'servings-poured', panel] as const]).flat(),
    ['taster', 'seat-taken', serving],
  ])
  const pages = await readOn()
  const pieces = pages.flatMap((page) => page.pieces)
  const told = pieces.reduce((sum, piece) => sum + (piece.kind === 'line' ? 1 : piece.fold.steps), 0)
  expect(told).toBe(2345 + 1 + 130 * 4 + 1)
  expect(new Set(pieces.map((piece) => (piece.kind === 'line' ? piece.line.id : piece.fold.id))).size).toBe(
    pieces.length,
  )
  expect(pages.every((page) => page.pieces.length <= 100)).toBe(true)
  expect(pieces.filter((piece) => piece.kind === 'line').length).toBe(1 + 130 + 1)
  // The long evening goes on on the next page, under the line where this one ended.
  const long = pieces.slice(-3).map(say)
  expect(long.every((words) => words.endsWith('in Evening sitting'))).toBe(true)
  const last = pieces.at(-1)
  expect(last?.kind === 'fold' && last.fold.below).toBe(pages.at(-2)?.last)
})
