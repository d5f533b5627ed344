import { tastersForDifference, tastersForPreference, tastersForSimilarity } from '@/lib/stats/plan/choice-power'
import type { Aim, TastersAnswer } from '@/lib/stats/plan/power'
import { PLAN_KINDS, type PlanKind } from '@/lib/stats/liking/claim-plan'
import { PROTOCOLS } from '@/lib/stats/difference/protocol'
import { tastersForAcceptance, tastersForEquivalence, tastersForNotWorse } from '@/lib/stats/plan/score-power'
import { Complaint, nearestOf } from '../complaint'
import type { Options } from '../options'
import type { Verb } from '../verb'

const PLANS: Readonly<
  Record<string, { readonly takes: readonly string[]; plan(options: Options, alpha: number, aim: Aim): TastersAnswer }>
> = {
  difference: {
    takes: ['protocol', 'pd'],
    plan: (options, alpha, aim) =>
      tastersForDifference(
        { protocol: options.needChoice('protocol', PROTOCOLS), pd: options.needNumber('pd'), alpha },
        aim,
      ),
  },
  similarity: {
    takes: ['protocol', 'pd', 'truth'],
    plan: (options, alpha, aim) =>
      tastersForSimilarity(
        {
          protocol: options.needChoice('protocol', PROTOCOLS),
          pd: options.needNumber('pd'),
          truth: options.number('truth'),
          alpha,
        },
        aim,
      ),
  },
  preference: {
    takes: ['share'],
    plan: (options, alpha, aim) => tastersForPreference({ share: options.needNumber('share'), alpha }, aim),
  },
  acceptance: {
    takes: ['sd', 'difference', 'cups', 'plan', 'control'],
    plan: (options, alpha, aim) =>
      tastersForAcceptance(
        {
          sd: options.needNumber('sd'),
          difference: options.needNumber('difference'),
          cups: options.needNumber('cups'),
          plan: planOf(options) ?? 'all',
          alpha,
        },
        aim,
      ),
  },
  'not-worse': {
    takes: ['sd', 'margin', 'truth', 'cups', 'plan', 'control'],
    plan: (options, alpha, aim) => tastersForNotWorse({ ...margin(options), alpha }, aim),
  },
  equivalence: {
    takes: ['sd', 'margin', 'truth', 'cups', 'plan', 'control'],
    plan: (options, alpha, aim) => tastersForEquivalence({ ...margin(options), alpha }, aim),
  },
}

const margin = (options: Options) => ({
  sd: options.needNumber('sd'),
  margin: options.needNumber('margin'),
  truth: options.number('truth'),
  plan: planOf(options),
  cups: options.number('cups'),
})

/** `--control` is `--plan against`. */
const planOf = (options: Options): PlanKind | undefined =>
  options.flag('control') ? 'against' : options.has('plan') ? options.needChoice('plan', PLAN_KINDS) : undefined

const VALUES = {
  protocol: 'triangle, duo-trio, two-afc, three-afc or tetrad',
  pd: 'the share of tasters who can tell',
  truth: 'the real share who can tell (similarity), the real difference (not-worse, equivalence) (0)',
  share: 'the share who prefer one cup',
  sd: 'of one taster’s one score about their own mean',
  difference: 'the difference to be found',
  cups: 'how many cups',
  margin: 'the difference that would matter',
  plan: 'all, against or pair: alpha is divided by its comparisons',
}

export const verb: Verb = {
  about: 'how many tasters a question needs, or how likely a given number answers it',
  options: {
    values: {
      ...VALUES,
      alpha: 'risk of a false alarm (0.05)',
      power: 'the chance wanted (0.8)',
      n: 'the power with this many tasters, in place of --power',
    },
    flags: { control: 'the same as --plan against' },
  },
  topics: {
    difference: 'to notice that two cups can be told apart',
    similarity: 'to call two cups similar',
    preference: 'to see which of two cups is preferred',
    acceptance: 'to claim one cup liked better than another',
    'not-worse': 'to claim one cup not worse than another by a margin',
    equivalence: 'to claim two cups as good as one another',
  },
  answer({ options, topic }) {
    const chosen = PLANS[topic]
    if (!chosen) throw new Complaint(`tasters '${topic}' is not known${nearestOf(topic, Object.keys(PLANS))}`)
    const stray = [...Object.keys(VALUES), 'control'].find(
      (name) => (options.has(name) || options.flag(name)) && !chosen.takes.includes(name),
    )
    if (stray) {
      throw new Complaint(`--${stray} is not an option of tasters ${topic}${nearestOf(stray, chosen.takes, '--')}`)
    }
    if (options.has('power') && options.has('n')) throw new Complaint(`tasters ${topic} takes --power or --n, not both`)
    const aim = options.has('n') ? { n: options.needNumber('n') } : { power: options.number('power') ?? 0.8 }
    // 1 − 0.95 is 0.05 and a last digit that would find its way into words and critical numbers.
    return chosen.plan(options, options.number('alpha') ?? Number((1 - options.level()).toPrecision(12)), aim)
  },
}
