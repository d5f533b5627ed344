/** On a full disk whoever signed in is told where they look: on the first page and while watching a panel. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readHome } from '@/lib/tasks/house/read-home'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let cafe: TestCafe
let panelId: string
beforeEach(async () => {
  cafe = await cafeForTest()
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan())
  if (!planned.ok) throw new Error(planned.reason)
  panelId = planned.value
  await openPanel(cafe.world, cafe.owner, panelId)
})
afterEach(() => cafe.close())

/** SQLite itself then answers that there is no room, as on a full disk. */
async function leaveRoomFor(pages: number): Promise<void> {
  const [has] = await cafe.db.$queryRawUnsafe<{ page_count: bigint }[]>('PRAGMA page_count')
  await cafe.db.$queryRawUnsafe(`PRAGMA max_page_count = ${Number(has?.page_count) + pages}`)
}

const writeMuch = () =>
  cafe.db.cafe.create({ data: { id: 'big', name: 'x'.repeat(50_000), createdAt: cafe.world.now() } })

async function told() {
  const [home, pourersHome, progress] = await Promise.all([
    readHome(cafe.world, cafe.owner, true),
    readHome(cafe.world, cafe.pourer, false),
    readProgress(cafe.world, cafe.pourer, panelId),
  ])
  return [home.disk, pourersHome.disk, progress?.disk]
}

test('a disk without room is told on the first page and to who watches, and no longer once there is room', async () => {
  await leaveRoomFor(0)
  await expect(writeMuch()).rejects.toThrow()
  expect(await told()).toEqual(['full', 'full', 'full'])
  await leaveRoomFor(1000)
  await writeMuch()
  expect(await told()).not.toContain('full') // the machine's own disk may be nearly full
})
