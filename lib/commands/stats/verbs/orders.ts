import { servingOrders } from '@/lib/panel/order'
import type { Verb } from '../verb'

export const verb: Verb = {
  about: 'who is served which cups, in which order',
  options: {
    values: {
      cups: 'how many cups',
      tasters: 'how many tasters',
      seed: 'a whole number: the same seed gives the same orders',
      'per-taster': 'cups for each taster (all)',
      duplicate: 'the cup that is served twice',
    },
  },
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
