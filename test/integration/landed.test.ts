import { expect, test } from 'vitest'
import { LANDED, openLanded } from '../support/landed'

test.each(LANDED)('%s opens and is brought up to date', async (name) => {
  const landed = await openLanded(name)
  expect(await landed.db.cafe.count()).toBeGreaterThan(0)
  await landed.close()
})
