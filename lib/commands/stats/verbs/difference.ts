import { difference } from '@/lib/stats/difference-test'
import { PROTOCOLS } from '@/lib/stats/protocol'
import type { Verb } from '../verb'

export const verb: Verb = {
  options: { values: ['protocol', 'correct', 'total', 'limit'] },
  answer({ options }) {
    return difference(
      {
        protocol: options.needChoice('protocol', PROTOCOLS),
        correct: options.needNumber('correct'),
        total: options.needNumber('total'),
        limit: options.number('limit'),
      },
      { level: options.level() },
    )
  },
}
