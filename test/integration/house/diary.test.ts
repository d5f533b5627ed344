import { afterEach, beforeEach, expect, test } from 'vitest'
import { readDiary } from '@/lib/tasks/house/read-diary'
import { pageOfSubject } from '@/app/(house)/diary/say-act'
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
