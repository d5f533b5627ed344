/**
 * Made      data/cochran_mcnemar.json: Agresti's approval table 150/86 and others, exact p by R 4.2.2 binom.test.
 * Within    1e-12
 */
import { test } from 'vitest'
import { signTest } from '@/lib/stats/choice/sign-test'
import { expectNear } from '../support/near'
import published from './data/cochran_mcnemar.json'

const { mcnemar_agresti, mcnemar_121_59, mcnemar_80_59, cata_example } = published.values

test.each([mcnemar_agresti, mcnemar_121_59, mcnemar_80_59, ...cata_example.pairs])(
  '$b against $c: the exact p',
  ({ b, c, p_exact }) => {
    expectNear(signTest(b, c), p_exact, 1e-12)
  },
)
