import { expect, test } from 'vitest'
import type { MoneySettings } from '@/lib/drink/trial'
import { costFigures } from '@/lib/drink/money'
import { contentsOfLine } from '@/lib/drink/preparation'
import { aLine, aTrial } from '../../support/drink-lines'

const settings: MoneySettings = {
  currency: 'coins',
  wasteFraction: 0,
  packagingCost: 0,
  targetCostFraction: 0.25,
  taxFraction: 0.25,
  menuPrice: 5,
  fixedCost: 100,
}
const cost = (over: Partial<MoneySettings> = {}, costPerGram: number | null = 0.01) => {
  const line = aLine({ name: 'Milk', costPerGram })
  return costFigures({ ...aTrial([]).money, ...settings, ...over }, [{ line, contents: contentsOfLine(line, null) }])
}

test('one unit of cost at a quarter share asks four net and five with a quarter tax', () => {
  const all = cost()
  expect(all.perGlass).toMatchObject({ value: 1, unit: 'coins' })
  expect(all.priceForTargetNet).toMatchObject({ value: 4, formula: '1 / 0.25' })
  expect(all.priceForTargetMenu).toMatchObject({ value: 5 })
  expect(all.netPrice).toMatchObject({ value: 4 })
  expect(all.costShare).toMatchObject({ value: 25 })
  expect(all.contribution).toMatchObject({ value: 3 })
  expect(all.breakEven).toMatchObject({ value: 34 })
})

test('a missing price is named, everywhere it matters', () => {
  const all = cost({}, null)
  for (const one of [all.perGlass, all.costShare, all.contribution, all.priceForTargetNet]) {
    expect(one).toMatchObject({ known: false, missing: ['price of Milk'] })
  }
})

test('a waste allowance nobody gave is not taken for none', () => {
  expect(cost({ wasteFraction: null }).perGlass).toMatchObject({ known: false, missing: ['waste allowance'] })
})

test('a glass sold below its cost never breaks even, and a price of nothing has no share', () => {
  expect(cost({ menuPrice: 1 }).breakEven).toMatchObject({
    known: false,
    missing: ['a price above the cost of the glass'],
  })
  expect(cost({ menuPrice: 0 }).costShare.known).toBe(false)
})
