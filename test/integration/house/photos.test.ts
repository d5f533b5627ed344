/** A photo is kept as the picture alone, seen by whoever may read recipes and tastes none, and taken out again without its row. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { longestBody } from '@/lib/commands/door/body.mjs'
import { checkBooks } from '@/lib/db/books/check-books'
import { LONGEST_PHOTO } from '@/lib/tasks/photo/clean-photo'
import { keepPhoto, takePhotoOut } from '@/lib/tasks/photo/keep-photo'
import { readPhoto, readPhotos } from '@/lib/tasks/photo/read-photos'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

/** Three pixels by two, as Chromium's canvas made it, in the order of RFC 9649; behind it what a camera wrote. */
const picture = Buffer.from(
  '5249464636000000574542505650382029000000' +
    '9001009d012a0300020002c04c25a00274ba00039800feed903f885dec6dbffcf4cfeb6fe3ff190000',
  'hex',
)
const withPlace = () => {
  const file = Buffer.concat([
    picture,
    Buffer.alloc(picture.length % 2),
    Buffer.from('XMP \x0e\0\0\0Quivering Pier', 'latin1'),
  ])
  file.writeUInt32LE(file.length - 8, 4)
  return file
}

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const keep = (trialId: string | null = null, file: Uint8Array = withPlace()) =>
  keepPhoto(cafe.world, cafe.owner, { recipeId: cafe.recipeId, trialId }, { file, caption: 'From the side' })
async function kept(trialId: string | null = null): Promise<string> {
  const made = await keep(trialId)
  expect(made).toMatchObject({ ok: true })
  return made.ok ? made.value : ''
}

test('of a photo the picture is kept, with its type by its bytes, and who added it', async () => {
  const id = await kept(cafe.trialIds[1])
  const row = await cafe.db.photo.findUniqueOrThrow({ where: { id } })
  expect(row).toMatchObject({ type: 'image/webp', width: 3, height: 2, recipeId: null, trialId: cafe.trialIds[1] })
  expect(Buffer.from(row.bytes ?? []).includes('Quivering')).toBe(false)
  expect(await readPhotos(cafe.world, cafe.secondOwner, cafe.recipeId)).toMatchObject({
    isTasting: false,
    photos: [{ id, by: 'Ottoline', caption: 'From the side', trial: { number: 2 } }],
  })
  expect(await readPhoto(cafe.world, cafe.owner, id)).toMatchObject({ type: 'image/webp' })
  const line = await cafe.db.auditRow.findFirstOrThrow({ where: { act: 'photo-added' } })
  expect([line.actorId, line.subjectKind, line.subjectId]).toEqual([cafe.owner.userId, 'trial', cafe.trialIds[1]])
})

test('taken out, the row stays without its picture, nobody is shown it, and the books balance', async () => {
  const id = await kept()
  expect(await takePhotoOut(cafe.world, cafe.stranger, id)).toMatchObject({ reason: 'gone' })
  expect(await takePhotoOut(cafe.world, cafe.owner, id)).toMatchObject({ ok: true })
  expect(await takePhotoOut(cafe.world, cafe.owner, id)).toMatchObject({ reason: 'gone' })
  expect(await cafe.db.photo.findUniqueOrThrow({ where: { id } })).toMatchObject({
    bytes: null,
    removedById: cafe.owner.userId,
  })
  expect(await readPhoto(cafe.world, cafe.owner, id)).toBeNull()
  expect((await readPhotos(cafe.world, cafe.owner, cafe.recipeId))?.photos).toEqual([])
  expect((await checkBooks(cafe.db)).filter(({ code }) => code === 'photo-half-kept')).toEqual([])
})

test('whoever has a seat in an open panel of the recipe sees none of its pictures until it is closed', async () => {
  const { db, owner, recipeId } = cafe
  const [ofRecipe, ofTrial] = [await kept(), await kept(cafe.trialIds[0])]
  const createdAt = new Date()
  const panel = { id: 'panel', cafeId: owner.cafeId, recipeId, joinToken: 'join', stage: 'open', createdAt }
  const words = { title: 'T', publicTitle: 'P', question: 'Q', primaryKind: 'all-pairs', seatCount: 1 }
  await db.panel.create({ data: { ...panel, ...words } })
  const seat = { id: 'seat', cafeId: owner.cafeId, panelId: 'panel', number: 1, cardToken: 'card', createdAt }
  await db.seat.create({ data: { ...seat, memberId: owner.userId } })
  expect(await readPhotos(cafe.world, owner, recipeId)).toMatchObject({ isTasting: true, photos: [] })
  expect([await readPhoto(cafe.world, owner, ofRecipe), await readPhoto(cafe.world, owner, ofTrial)]).toEqual([
    null,
    null,
  ])
  expect((await readPhotos(cafe.world, cafe.secondOwner, recipeId))?.photos).toHaveLength(2)
  await db.panel.update({ where: { id: 'panel' }, data: { stage: 'closed' } })
  expect(await readPhoto(cafe.world, owner, ofTrial)).not.toBeNull()
})

test('what is no photo, a trial of elsewhere, a thirteenth and a stranger are refused, and nothing is kept', async () => {
  expect(await keep(null, Buffer.from('GIF89a'))).toMatchObject({ reason: 'not-a-photo' })
  expect(await keep('no-such-trial')).toMatchObject({ reason: 'gone' })
  const from = { recipeId: cafe.recipeId, trialId: null }
  expect(await keepPhoto(cafe.world, cafe.stranger, from, { file: withPlace(), caption: null })).toMatchObject({
    reason: 'gone',
  })
  expect(await cafe.db.photo.count()).toBe(0)
  const id = await kept()
  expect(await readPhoto(cafe.world, cafe.stranger, id)).toBeNull()
  expect(await readPhotos(cafe.world, cafe.stranger, cafe.recipeId)).toBeNull()
  for (let more = 1; more < 12; more++) await kept()
  expect(await keep()).toMatchObject({ reason: 'too-many' })
  await takePhotoOut(cafe.world, cafe.owner, id)
  expect(await keep()).toMatchObject({ ok: true })
})

test('the door lets a photo through where one is added, and no more anywhere else', () => {
  expect(longestBody('/recipes/abc/photos')).toBeGreaterThan(LONGEST_PHOTO + 4096)
  expect(longestBody('/recipes/abc/photos')).toBeLessThan(350_000)
  for (const other of ['/recipes/abc', '/recipes/abc/photos/x', '/photos/abc', '/taste/scores', '/recipes//photos'])
    expect(longestBody(other)).toBe(65_536)
})
