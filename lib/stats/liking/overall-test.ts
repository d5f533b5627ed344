import type { FTest } from '../model/fixed-effects'
import type { LikingModel } from './liking-model'
import { factorContrasts } from './marginal-mean'

/**
 * Do the cups differ at all, by the model?
 *
 * @param cups  how many there are, where there is no model
 *
 * Source   Kuznetsova, Brockhoff and Christensen (2017), J. Stat. Softw. 82(13).
 * Checked  test/reference/acceptance-r-cases.test.ts
 * Limits   believes in one spread for all cups: where one cup divides its tasters false alarms nearly double.
 */
export function overallTest(model: LikingModel | null, cups: number): FTest {
  const nothing = { F: null, df1: cups - 1, df2: null, p: null }
  return model?.effects?.test(factorContrasts(model.design, model.gram, 'cup')) ?? nothing
}
