import { afterEach, beforeEach, expect, test } from 'vitest'
import { readDiary } from '@/lib/tasks/house/read-diary'
import { archiveRecipe } from '@/lib/tasks/recipe/keep-recipe'
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

test('a line of another café opens no page of its diary', async () => {
  const { world, owner } = cafe
  const mine = await readDiary(world, owner, null)
  const other = await readDiary(world, { ...owner, cafeId: 'another-cafe' }, mine.lines[0]?.id ?? null)
  expect(other.lines).toEqual([])
})
