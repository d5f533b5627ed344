/**
 * Made      data/preference_with_ties.json: trinomial test after Bian, McAleer & Wong (2011), net preference, R 4.2.2;
 *           make/ranks-and-choices.R: every outcome weighed by dmultinom.
 * Within    1e-9
 */
import { test } from 'vitest'
import { netPreference, trinomialTest } from '@/lib/stats/choice/trinomial'
import { expectAllNear, expectNear } from '../support/near'
import published from './data/preference_with_ties.json'
import made from './data/ranks-and-choices.json'

test.each(published.values)('$prefer_a, $prefer_b and $none without a preference', (one) => {
  const { estimate, interval } = netPreference(one.prefer_a, one.prefer_b, one.none, 0.95)
  expectNear(trinomialTest(one.prefer_a, one.prefer_b, one.none), one.p_trinomial, 1e-9)
  expectNear(estimate, one.net, 1e-12)
  expectAllNear(interval, one.net_ci, 1e-9)
})

test.each(made.cases.trinomial)('$a, $b and $none: every outcome counted', ({ a, b, none, p }) => {
  expectNear(trinomialTest(a, b, none), p, 1e-9)
})
