import { difference } from '@/lib/stats/difference/difference-test'
import { PROTOCOLS } from '@/lib/stats/difference/protocol'
import type { Verb } from '../verb'

export const verb: Verb = {
  about: 'whether tasters can tell two cups apart, how many of them, and by how much the cups differ',
  options: {
    values: {
      protocol: 'triangle, duo-trio, two-afc, three-afc or tetrad',
      correct: 'how many were right, in place of a file',
      total: 'of how many',
      limit: 'is the share of tasters who can tell below this?',
    },
  },
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
