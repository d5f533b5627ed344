/** A mat per tray, on paper that lies open on the table: where each cup stands, and nothing that tells which it is. */
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { TrayMat } from '@/app/(house)/panels/[panelId]/mats/tray-mat'
import { readMats } from '@/lib/tasks/pour/read-mats'
import { openPanelForTest, type OpenPanel } from '../../support/open-panel'

let panel: OpenPanel
beforeEach(async () => {
  panel = await openPanelForTest()
})
afterEach(() => panel.close())

const read = (cafeId = panel.cafeId) => readMats(panel.world, { userId: panel.userId, cafeId }, panel.panelId)

test('its circles stand in the order of tasting, each with its code underlined, and every byte is searched', async () => {
  const mats = await read()
  const sheets = mats?.seats.map((seat) =>
    renderToStaticMarkup(createElement(TrayMat, { publicTitle: mats.publicTitle, seat })),
  )
  expect(sheets).toHaveLength(3)
  const all = (sheets ?? []).join('\n').toLowerCase()
  expect(panel.secrets.filter((secret) => all.includes(secret.toLowerCase()))).toEqual([])
  for (const [at, { id }] of panel.seats.entries()) {
    const rows = await panel.db.serving.findMany({ where: { seatId: id }, orderBy: { position: 'asc' } })
    const codes = [...(sheets?.[at] ?? '').matchAll(/underline[^>]*>(\d{3})</g)].map(([, code]) => code)
    expect(codes).toEqual(rows.map(({ code }) => code))
  }
})

test('a seat that left or is set aside has none; another café and a closed panel have none at all', async () => {
  const [one, two] = panel.seats
  await panel.db.seat.update({ where: { id: one?.id ?? '' }, data: { leftAt: panel.world.now() } })
  await panel.db.seat.update({ where: { id: two?.id ?? '' }, data: { setAsideAt: panel.world.now() } })
  expect((await read())?.seats.map(({ number }) => number)).toEqual([3])
  expect(await read('another')).toBeNull()
  await panel.db.panel.update({ where: { id: panel.panelId }, data: { stage: 'closed' } })
  expect(await read()).toBeNull()
})
