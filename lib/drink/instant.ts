import type { Brew, BuildLine } from './trial'
import { brewed } from './brewing'
import type { Contents } from './contents'
import { gramsOfLine, ingredientContents } from './contents'
import { combine, sum } from './figure'

/** Is this instant coffee, dissolved in water by the trial's own ratio? Without a ratio its water is a line of its own. */
export function isInstant(line: BuildLine, brew: Brew | null): brew is Brew {
  const powder = line.kind === 'coffee' && line.form === 'powder' && line.preparation === null
  return powder && brew?.brewing === 'dissolved' && brew.ratio !== null
}

/** Is this line made with water by the trial's own brew, so that a beverage enters the glass and not what was weighed? */
export function isBrewed(line: BuildLine, brew: Brew | null): boolean {
  return isInstant(line, brew) || (line.form === 'grounds' && line.preparation === null)
}

/**
 * What does instant coffee bring with the water of its ratio?
 *
 *     beverage = powder + water;   water = r · D  or  r · D − D;   all else as in the powder
 *
 * Source   all dissolves, nothing is kept
 * Checked  test/unit/drink/instant.test.ts
 */
export function instantContents(line: BuildLine, brew: Brew): Contents {
  const powder = ingredientContents(line)
  const { water, beverage } = brewed(brew, gramsOfLine(line), null)
  return {
    ...powder,
    grams: beverage,
    water: sum([powder.water, water]),
    volume: combine([powder.volume, water], (dry, wet) => dry + wet / 0.9982),
  }
}
