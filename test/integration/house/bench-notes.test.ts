/** What a maker notes of the own glass stands apart: of it nothing reaches a taster, an export or a result. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { BenchNoteForm } from '@/lib/forms/bench-note-form'
import { exportTrial } from '@/lib/tasks/trial/export-trial'
import { noteAtBench } from '@/lib/tasks/trial/note-at-bench'
import { readBenchNotes } from '@/lib/tasks/trial/read-bench-notes'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
let trialId: string
beforeEach(async () => {
  cafe = await cafeForTest()
  trialId = cafe.trialIds[0] ?? ''
})
afterEach(() => cafe.close())

const sent = { sweet: 0, strong: 60, body: undefined, minutes: 5, text: 'Quivering finish' }

/** A panel with that trial at a stage, and Ottoline at its first seat. */
async function seated(stage: string) {
  const { db, owner, recipeId } = cafe
  const panel = {
    id: 'panel',
    cafeId: owner.cafeId,
    recipeId,
    joinToken: 'join',
    stage,
    createdAt: new Date(),
    orderSeed: 1,
  }
  const words = { title: 'T', publicTitle: 'P', question: 'Q', primaryKind: 'all-pairs', seatCount: 1 }
  await db.panel.create({ data: { ...panel, ...words } })
  await db.cup.create({ data: { id: 'cup', cafeId: owner.cafeId, panelId: 'panel', trialId, place: 0 } })
  await db.seat.create({
    data: {
      id: 'seat',
      cafeId: owner.cafeId,
      panelId: 'panel',
      number: 1,
      cardToken: 'card',
      memberId: owner.userId,
      createdAt: new Date(),
    },
  })
}

test('a note is added with its numbers, its minute and its maker; what was left out stays left out, zero is zero', async () => {
  expect(await noteAtBench(cafe.world, cafe.owner, trialId, sent)).toMatchObject({ ok: true })
  expect(await readBenchNotes(cafe.world, cafe.secondOwner, trialId)).toMatchObject([
    { sweet: 0, strong: 60, body: null, minutes: 5, text: 'Quivering finish', by: 'Ottoline' },
  ])
  const line = await cafe.db.auditRow.findFirstOrThrow({ where: { act: 'bench-note-added' } })
  expect([line.actorId, line.subjectId, line.detail]).toEqual([cafe.owner.userId, trialId, null])
})

test('it goes into no file of the trial', async () => {
  await noteAtBench(cafe.world, cafe.owner, trialId, sent)
  expect(JSON.stringify(await exportTrial(cafe.world, cafe.owner, trialId))).not.toContain('Quivering')
})

test('whoever has a seat in an open panel that pours it reads and writes none until it is closed', async () => {
  await noteAtBench(cafe.world, cafe.owner, trialId, sent)
  await seated('open')
  expect(await readBenchNotes(cafe.world, cafe.owner, trialId)).toBe('is-tasting')
  expect(await noteAtBench(cafe.world, cafe.owner, trialId, sent)).toMatchObject({ ok: false, reason: 'is-tasting' })
  expect(await readBenchNotes(cafe.world, cafe.secondOwner, trialId)).toHaveLength(1)
  expect(await readBenchNotes(cafe.world, cafe.owner, cafe.trialIds[1] ?? '')).toEqual([])
  await cafe.db.panel.update({ where: { id: 'panel' }, data: { stage: 'closed' } })
  expect(await readBenchNotes(cafe.world, cafe.owner, trialId)).toHaveLength(1)
})

test('nobody of another café reads or writes it', async () => {
  await noteAtBench(cafe.world, cafe.owner, trialId, sent)
  expect(await noteAtBench(cafe.world, cafe.stranger, trialId, sent)).toMatchObject({ ok: false, reason: 'gone' })
  expect(await readBenchNotes(cafe.world, cafe.stranger, trialId)).toEqual([])
})

test.each([
  [{}, 'text'],
  [{ minutes: '4' }, 'text'],
  [{ sweet: '101' }, 'sweet'],
  [{ strong: '-1' }, 'strong'],
  [{ body: '12.5' }, 'body'],
])('%j is refused beside its field', (typed, field) => {
  const read = BenchNoteForm.safeParse(typed)
  expect(read.success ? [] : read.error.issues.map(({ path }) => path.join('.'))).toEqual([field])
})
