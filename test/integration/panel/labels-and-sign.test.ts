/** What is printed for the table and the door tells which cup is which as little as a phone does. */
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { CupLabels } from '@/app/(house)/panels/[panelId]/labels/cup-labels'
import { TastingSign } from '@/app/(house)/panels/[panelId]/sign/tasting-sign'
import { readMats } from '@/lib/tasks/pour/read-mats'
import { readSign } from '@/lib/tasks/pour/read-sign'
import { openPanelForTest, type OpenPanel } from '../../support/open-panel'

let panel: OpenPanel
beforeEach(async () => {
  panel = await openPanelForTest()
})
afterEach(() => panel.close())

const cafe = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' }
const reader = (cafeId = panel.cafeId) => ({ userId: panel.userId, cafeId, cafe })
const secretsIn = (page: string) => panel.secrets.filter((secret) => page.toLowerCase().includes(secret.toLowerCase()))

test('every cup has a label with its code, seat by seat in the order of tasting, and nothing that tells which it is', async () => {
  const mats = await readMats(panel.world, reader(), panel.panelId)
  if (!mats) throw new Error('no mats')
  const page = renderToStaticMarkup(createElement(CupLabels, { mats }))
  expect(secretsIn(page)).toEqual([])
  const rows = await panel.db.serving.findMany({
    where: { panelId: panel.panelId },
    orderBy: [{ seat: { number: 'asc' } }, { position: 'asc' }],
  })
  const codes = [...page.matchAll(/underline[^>]*>(\d{3})</g)].map(([, code]) => code)
  expect(codes).toEqual(rows.map(({ code }) => code))
})

test('the sign says what the door says, over all cups together, and is of an open panel of this house', async () => {
  const sign = await readSign(panel.world, reader(), panel.panelId)
  if (!sign) throw new Error('no sign')
  const page = renderToStaticMarkup(createElement(TastingSign, { sign, address: 'http://house.example/join/x' }))
  expect(secretsIn(page)).toEqual([])
  expect(sign.cautions.said.length).toBeGreaterThan(0)
  for (const { words } of sign.cautions.said) expect(page).toContain(words.replaceAll("'", '&#x27;'))
  expect(await readSign(panel.world, reader('another'), panel.panelId)).toBeNull()
  await panel.db.panel.update({ where: { id: panel.panelId }, data: { stage: 'closed' } })
  expect(await readSign(panel.world, reader(), panel.panelId)).toBeNull()
})
