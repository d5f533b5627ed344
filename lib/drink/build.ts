import { allergensOf } from './allergen'
import { cautionsOf } from './caution'
import { glassFigures } from './glass'
import { partsInGlass } from './in-glass'
import { intakeFigures } from './intake'
import { brewFigures, lineFigures } from './line'
import { costFigures } from './money'
import { contentsOfLine } from './preparation'
import type { Worked } from './preparation'
import { problemsOfBuild } from './problem'
import type { BuildFigures, TrialBuild } from './trial'

/**
 * What is this drink, from everything that is known of it?
 *
 * @param build  a whole trial; anything in it may be missing or wrong, this never throws
 * @returns      every figure, known with its working or not known with what is missing, and what to mend first
 *
 * Source   the files of this room, one per formula
 * Checked  test/unit/drink/build.test.ts, test/reference/ferry-steps-by-hand.test.ts
 * Limits   Figures for a café's own use; not a nutrition label, not a food-safety plan.
 */
export function computeBuild(build: TrialBuild): BuildFigures {
  const worked: Worked = new Map()
  const poured = build.lines.map((line) => ({ line, contents: contentsOfLine(line, build.brew, worked) }))
  const figures = {
    lines: poured.map((one) => lineFigures(one, build.money.currency)),
    brew: brewFigures(build),
    ...glassFigures(build, poured),
    ...intakeFigures(poured, build.brew),
    allergens: allergensOf(partsInGlass(build, worked), build.allergenList),
    cost: costFigures(build.money, poured),
  }
  return { ...figures, cautions: cautionsOf(build, figures, worked), problems: problemsOfBuild(build, worked) }
}
