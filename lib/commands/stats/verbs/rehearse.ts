import { servingOrders } from '@/lib/panel/order'
import { PLAN_KINDS } from '@/lib/stats/liking/claim-plan'
import { rehearse } from '@/lib/stats/plan/rehearse'
import { Complaint } from '../complaint'
import type { Verb } from '../verb'

const PANELS = 2000
const MOST_PANELS = 100_000
// What is gone through for one panel grows with tasters × cups², and much more where not everybody scores every cup.
const MOST_WORK = 1_000_000_000
const MOST_PATCHWORK = 10_000_000

export const verb: Verb = {
  about: 'a planned panel played again and again through the code that will read the real one',
  options: {
    values: {
      cups: 'how many cups; cup 1 is better than all others by the difference',
      tasters: 'how many tasters',
      sd: 'of one taster’s one score about their own mean',
      difference: 'how much better cup 1 is, in points',
      'taster-sd': 'spread between tasters (1)',
      'per-taster': 'cups for each taster (all)',
      plan: 'all, against (cup 2) or pair (cups 1 and 2) (all)',
      margin: 'the difference that would matter',
      'margin-level': 'of the intervals read beside the margin (the level)',
      absent: 'the chance that a cup gets no score (0)',
      divide: 'half the tasters like the last cup so much more, half so much less (0)',
      step: 'scores lie on steps of this size, cut to 1 to 9; 0: neither (1)',
      panels: `how many panels (${PANELS})`,
      seed: 'a whole number: the same seed gives the same answer (1)',
    },
  },
  answer({ options }) {
    const cups = options.needNumber('cups')
    const tasters = options.needNumber('tasters')
    const perTaster = options.number('per-taster')
    const panels = options.number('panels') ?? PANELS
    const seed = options.number('seed') ?? 1
    const isWhole = (perTaster === undefined || perTaster >= cups) && !options.number('absent')
    checkPanels(panels, tasters * cups ** 2, isWhole)
    const trays =
      perTaster === undefined || perTaster >= cups
        ? undefined
        : servingOrders({ cups, tasters, perTaster, seed }).orders
    const level = options.level()
    const rehearsed = rehearse(
      {
        cups,
        tasters,
        trays,
        sd: options.needNumber('sd'),
        difference: options.needNumber('difference'),
        tasterSd: options.number('taster-sd'),
        plan: options.choice('plan', PLAN_KINDS) ?? 'all',
        margin: options.number('margin'),
        level,
        marginLevel: options.number('margin-level'),
        absent: options.number('absent'),
        divide: options.number('divide'),
        step: options.number('step'),
        seed,
      },
      panels,
    )
    return {
      verb: 'rehearse',
      level,
      counts: { panels, tasters, cups },
      method:
        'scores around 6 with normal taster and rest, rounded and cut; each panel read by the claims of acceptance; true is the expected difference after rounding and cutting',
      notes: [],
      ...rehearsed,
    }
  },
}

function checkPanels(panels: number, each: number, isWhole: boolean): void {
  const most = Math.min(MOST_PANELS, Math.max(1, Math.floor((isWhole ? MOST_WORK : MOST_PATCHWORK) / each)))
  if (panels <= most) return
  const why = most === MOST_PANELS ? '' : ` for so many tasters and cups${isWhole ? '' : ' where some go unscored'}`
  throw new Complaint(`--panels may be ${most} at most${why}, got ${panels}`)
}
