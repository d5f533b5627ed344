import { PLAN_KINDS } from '@/lib/stats/liking/claim-plan'
import { acceptance } from '@/lib/stats/liking/acceptance'
import { Complaint } from '../complaint'
import { checkCups } from '../known-label'
import type { Options } from '../options'
import type { Verb } from '../verb'

export const verb: Verb = {
  about: 'liking scores: which cups are liked better than which, by how much, and how sure that is',
  file: {
    needed: ['taster', 'cup', 'score'],
    most: { cup: 30, position: 50, session: 50 },
    optional: ['replicate', 'position', 'session', 'skips'],
    oneAttribute: true,
  },
  options: {
    values: {
      plan: 'all, against or pair: the comparisons fixed beforehand',
      control: 'the cup that all others are compared with',
      pair: 'A,B: the two cups of a plan of one pair',
      margin: 'a difference that would matter, above zero',
      'margin-level': 'level of the intervals that the margin is read off (the level)',
      df: 'satterthwaite (default) or kenward-roger, for the model’s own tests',
      step: 'the step of the scores (1 where all are whole numbers, otherwise 0)',
      lowest: 'with --skips: the score that a skipped cup counts as (1)',
    },
  },
  answer({ options, table }) {
    const rows = table?.rows ?? []
    const control = options.text('control')
    const pair = pairOf(options)
    if (table && control !== undefined) checkCups(table, 'control', [control])
    if (table && pair) checkCups(table, 'pair', pair)
    // Sessions and skips are read only when their column is named: a file may carry them for other ends.
    const [session, skips] = [options.has('session'), options.has('skips')]
    if (options.has('lowest') && !skips) throw new Complaint('--lowest goes with --skips')
    if (options.has('margin-level') && !options.has('margin')) throw new Complaint('--margin-level goes with --margin')
    const plan = options.choice('plan', PLAN_KINDS)
    if (plan === 'against' && control === undefined) throw new Complaint('--plan against needs --control CUP')
    if (plan === 'pair' && !pair) throw new Complaint('--plan pair needs --pair A,B')
    if (pair && plan !== undefined && plan !== 'pair') throw new Complaint(`--pair goes with --plan pair, not ${plan}`)
    return acceptance(
      rows.map((row) => ({
        taster: row.label('taster'),
        cup: row.label('cup'),
        score: row.number('score'),
        replicate: row.text('replicate'),
        position: row.number('position'),
        session: session ? row.label('session') : null,
        skipped: skips && row.text('skips') !== null,
      })),
      {
        level: options.level(),
        session,
        replicated: table?.has('replicate') ?? false,
        df: options.choice('df', ['satterthwaite', 'kenward-roger']) ?? 'satterthwaite',
        ...(plan === undefined ? {} : { plan }),
        ...(control === undefined ? {} : { control }),
        ...(pair ? { pair } : {}),
        ...(options.has('margin') ? { margin: options.needNumber('margin') } : {}),
        ...(options.has('margin-level') ? { marginLevel: options.share('margin-level') } : {}),
        ...(options.has('step') ? { step: options.needNumber('step') } : {}),
        ...(skips ? { skipsCountAs: options.number('lowest') ?? 1 } : {}),
      },
    )
  },
}

function pairOf(options: Options): [string, string] | null {
  const text = options.text('pair')
  if (text === undefined) return null
  const cups = text.split(',').map((cup) => cup.trim())
  const [a, b] = cups
  if (!a || !b || cups.length > 2 || a === b) throw new Complaint(`--pair '${text}' must name two cups as A,B`)
  return [a, b]
}
