import { servingOrders } from '@/lib/panel/order'
import type { Verb } from '../verb'

export const verb: Verb = {
  options: { values: ['cups', 'tasters', 'seed', 'per-taster', 'duplicate'] },
  answer({ options }) {
    const cups = options.needNumber('cups')
    const tasters = options.needNumber('tasters')
    const perTaster = options.number('per-taster')
    const duplicate = options.number('duplicate')
    const answer = servingOrders({
      cups,
      tasters,
      seed: options.needNumber('seed'),
      ...(perTaster === undefined ? {} : { perTaster }),
      ...(duplicate === undefined ? {} : { duplicate }),
    })
    const size = answer.orders[0]?.length ?? 0
    const labels = answer.pairCounts.length
    return {
      verb: 'orders',
      level: options.level(),
      counts: { tasters, cups, servings: tasters * size },
      method:
        size === labels
          ? 'Williams squares with random labels and rows; positionCounts by cup and place, followCounts by cup before and cup after'
          : 'balanced incomplete blocks as often as they fit, the evenest trays found for the rest; positionCounts by cup and place, followCounts by cup before and cup after',
      notes: duplicate === undefined ? [] : [`cup ${labels} is cup ${duplicate} served a second time`],
      ...answer,
    }
  },
}
