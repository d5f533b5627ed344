import { servingOrders } from '@/lib/panel/order'
import { below, millisecondsOf, timed, type Measured } from './measure'

export function benchOrders(): Measured[] {
  const deal = () => servingOrders({ cups: 12, tasters: 500, seed: 3 })
  const first = millisecondsOf(deal)
  const warm = timed(deal, 2, 9)
  const note = `${warm.median.toFixed(1)} ms once warm, median`
  return [below({ part: 'orders', what: '12 cups, 500 tasters, first call', unit: 'ms', note }, first, 100)]
}
