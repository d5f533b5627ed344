import type { CostFigures, MoneySettings } from './trial'
import { breakEvenGlasses, glassCost, netOfTax, priceForShare } from './cost'
import type { Tally } from './figure'
import { combine, figure, sum, tally, written } from './figure'
import type { Poured } from './glass'
import { addends } from './glass'
import { SOURCE } from './source'

const above = (value: number | null, least: number, most: number): number | null =>
  value !== null && value >= least && value <= most ? value : null

/**
 * What does the glass cost, and what is left of its price?
 *
 *     cost = Σ lines · (1 + waste) + packaging;   net = menu / (1 + tax);   contribution = net − cost
 *     share = cost / net;   price for a target = cost / share, with tax on top;   break-even = ⌈fixed / contribution⌉
 *
 * @param poured  every line with what it brings, cost among it
 *
 * Source   common practice of costing, no source
 * Checked  test/reference/cost-worked-example.test.ts
 * Limits   No labour, rent or energy unless they are in the fixed cost.
 */
export function costFigures(money: MoneySettings, poured: readonly Poured[]): CostFigures {
  const { currency } = money
  const ingredients = sum(poured.map(({ contents }) => contents.cost))
  const waste = tally(above(money.wasteFraction, 0, 1), 'waste allowance')
  const packaging = tally(above(money.packagingCost, 0, Infinity), 'cost of packaging')
  const menu = tally(above(money.menuPrice, 0, Infinity), 'menu price')
  const tax = tally(above(money.taxFraction, 0, 1), 'tax rate')
  const target = tally(above(money.targetCostFraction, 0.001, 1), 'target cost share')
  const fixed = tally(above(money.fixedCost, 0, Infinity), 'fixed cost')

  const wasted = combine([ingredients, waste], (sumOfLines, share) => sumOfLines * share)
  const cost = combine([ingredients, waste, packaging], glassCost)
  const net = combine([menu, tax], netOfTax)
  const left = combine([net, cost], (price, spent) => price - spent)
  const share = combine([cost, net], (spent, price) => (100 * spent) / price)
  const wanted = combine([cost, target], priceForShare)
  const glasses = combine([fixed, left], (spent, each) => breakEvenGlasses(spent, each) ?? Number.NaN)
  const loses = left.missing.length === 0 && left.total <= 0
  const coin = (amount: Tally) => written(amount.total, 4)
  const from = [SOURCE.cost]
  return {
    ingredients: figure(
      ingredients,
      currency,
      () =>
        addends(
          poured.map(({ line, contents }) => ({ name: line.name, amount: contents.cost })),
          4,
        ),
      from,
    ),
    waste: figure(wasted, currency, () => `${coin(ingredients)} · ${written(waste.total, 4)}`, from),
    packaging: figure(packaging, currency, () => coin(packaging), from),
    perGlass: figure(cost, currency, () => `${coin(ingredients)} + ${coin(wasted)} + ${coin(packaging)}`, from),
    netPrice: figure(net, currency, () => `${coin(menu)} / (1 + ${written(tax.total, 4)})`, from),
    costShare: figure(share, '%', () => `100 · ${coin(cost)} / ${coin(net)}`, from),
    contribution: figure(left, currency, () => `${coin(net)} − ${coin(cost)}`, from),
    breakEven: loses
      ? { known: false, unit: 'glasses', missing: ['a price above the cost of the glass'] }
      : figure(glasses, 'glasses', () => `${coin(fixed)} / ${coin(left)}, rounded up`, from),
    priceForTargetNet: figure(wanted, currency, () => `${coin(cost)} / ${written(target.total, 4)}`, from),
    priceForTargetMenu: figure(
      combine([wanted, tax], (price, share) => price * (1 + share)),
      currency,
      () => `${coin(wanted)} · (1 + ${written(tax.total, 4)})`,
      from,
    ),
  }
}
