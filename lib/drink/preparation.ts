import type { BuildLine, Preparation } from './trial'
import type { Brewed } from './brewing'
import { brewed } from './brewing'
import type { Contents } from './contents'
import { contentsBy, gramsOfLine, groundsContents, ingredientContents, shareOf, together } from './contents'
import { sucroseDensity } from './density'
import type { Tally } from './figure'
import { combine, sum, tally, times } from './figure'
import { instantContents, isInstant } from './instant'
import { innermostFirst, preparationsOf } from './nesting'

/**
 * Does any preparation contain itself, through whatever chain?
 *
 * @param uses   for each preparation, the preparations it uses, by id
 * @returns      the path of a loop, first id repeated at its end, or null
 *
 * Source   depth-first search
 * Checked  test/unit/drink/preparation.test.ts
 */
export function findLoop(uses: ReadonlyMap<string, readonly string[]>): readonly string[] | null {
  const { loops } = innermostFirst(uses.keys(), (id) => uses.get(id) ?? [])
  for (const loop of loops.values()) return loop
  return null
}

/** Batches already worked out in this computation: one batch is often poured into several lines. */
export type Worked = Map<Preparation, Contents>

const loopWords = (loop: readonly Preparation[]) =>
  `a preparation that does not contain itself (${loop.map((one) => one.name).join(' → ')})`

/** Which line is poured how: an ingredient as it is, grounds through a brew, a batch through its inputs. */
export function contentsOfLine(line: BuildLine, brew: Preparation['brew'], worked: Worked = new Map()): Contents {
  return contentsWith(line, brew, (preparation) => preparationContents(preparation, worked))
}

type WholeOf = (preparation: Preparation) => Contents

function contentsWith(line: BuildLine, brew: Preparation['brew'], wholeOf: WholeOf): Contents {
  if (line.preparation) return batchContents(line, wholeOf(line.preparation))
  if (isInstant(line, brew)) return instantContents(line, brew)
  return line.form === 'grounds' ? groundsContents(line, brew) : ingredientContents(line)
}

/**
 * What does an amount of a batch bring?
 *
 *     measure = measure of the whole batch · grams / output of the batch
 *
 * Source   balance of mass
 * Checked  test/unit/drink/preparation.test.ts
 */
function batchContents(line: BuildLine, whole: Contents): Contents {
  const grams = gramsOfLine(line)
  const share = combine([grams, whole.grams], (mass, output) => mass / output)
  return { ...shareOf(whole, share), grams }
}

/**
 * What is in a whole batch, after all that went in and all that left?
 *
 *     syrup:  what left is steam: water and mass fall, sugar stays
 *     mix:    what left was strained off or spilled: every measure falls by M / Σ m, cost stays
 *     infusion: what is strained out keeps back k · D of the liquid L: of L the share B/L goes along, B = L − k·D unless weighed
 *     brew:   beverage B at strength t; of all else put in, the share B·(1 − t)/W goes along, the grounds keep the rest
 *
 * @param worked  batches already worked out in this computation; whatever stands in this one is added, each once
 * @returns       measures of the batch; not known without a measured output, except a brew by its retention
 *
 * Source   balance of mass; ICUMSA SPS-4 for a syrup's density
 * Checked  test/unit/drink/preparation.test.ts
 * Limits   A syrup's loss is taken for steam alone, a mix's for the mix itself.
 */
export function preparationContents(preparation: Preparation, worked: Worked = new Map()): Contents {
  const known = worked.get(preparation)
  if (known) return known
  const here = new Map<Preparation, Contents>()
  const { order, loops } = innermostFirst([preparation], (one) => (worked.has(one) ? [] : preparationsOf(one.inputs)))
  const wholeOf = (one: Preparation) => worked.get(one) ?? here.get(one) ?? inALoop(loops.get(one) ?? [one])
  // Inside a loop, and around one, the answer depends on where one came in, so only a finished tree is kept.
  const unsettled = new Set<Preparation>(loops.keys())
  for (const one of order) {
    if (worked.has(one)) continue
    here.set(one, workedOut(one, wholeOf))
    if (preparationsOf(one.inputs).some((inner) => unsettled.has(inner))) unsettled.add(one)
  }
  for (const [one, made] of here) if (!unsettled.has(one)) worked.set(one, made)
  return wholeOf(preparation)
}

function inALoop(loop: readonly Preparation[]): Contents {
  const asked = tally(null, loopWords(loop))
  return contentsBy(() => asked, [], [])
}

/** Is this a preparation without a batch: named, but none of it is in date, so that nobody knows what would be poured? */
export const isNotInDate = ({ batch, inputs }: Pick<Preparation, 'batch' | 'inputs'>): boolean =>
  batch === '' && inputs.length === 0

function workedOut(preparation: Preparation, wholeOf: WholeOf): Contents {
  if (isNotInDate(preparation)) {
    const lacking = tally(null, `a batch of ${preparation.name} in date`)
    return contentsBy(() => lacking, [], [])
  }
  if (preparation.kind === 'infusion') return infusionContents(preparation, wholeOf)
  const poured = preparation.inputs.filter((line) => line.form !== 'grounds' || line.preparation)
  const liquid = together(poured.map((line) => contentsWith(line, null, wholeOf)))
  if (poured.length < preparation.inputs.length) return brewContents(preparation, liquid)
  if (preparation.kind === 'syrup') return syrupContents(preparation, liquid)
  return mixContents(preparation, liquid)
}

const outputOf = ({ outputGrams, name }: Preparation): Tally =>
  tally(outputGrams !== null && outputGrams > 0 ? outputGrams : null, `output of ${name}, weighed`)

function withDensity(preparation: Preparation, contents: Contents, computed: () => Tally): Contents {
  const measured = preparation.densityMeasured
  if (measured === null || !(measured > 0)) return { ...contents, volume: computed() }
  return { ...contents, volume: times(contents.grams, 1 / measured) }
}

/** More left as steam than there was water: what stays cannot boil off. */
const isTooLight = (water: Tally, steam: Tally): boolean =>
  [water, steam].every((part) => part.missing.length === 0) && water.total < steam.total - 1e-9

/** Is this syrup lighter than the sugar and solids that went in? */
export function lostMoreThanWater(preparation: Preparation, worked: Worked = new Map()): boolean {
  const output = outputOf(preparation)
  const whole = (one: Preparation) => preparationContents(one, worked)
  const into = together(preparation.inputs.map((line) => contentsWith(line, null, whole)))
  const steam = combine([into.grams, output], (all, out) => all - out)
  return preparation.kind === 'syrup' && isTooLight(into.water, steam)
}

function tooHeavy(preparation: Preparation, output: Tally, into: Tally): Tally {
  const heavier = output.missing.length === 0 && into.missing.length === 0 && output.total > into.total * (1 + 1e-9)
  return heavier ? tally(null, `output of ${preparation.name} not heavier than what went in`) : output
}

function syrupContents(preparation: Preparation, into: Contents): Contents {
  const output = tooHeavy(preparation, outputOf(preparation), into.grams)
  const steam = combine([into.grams, output], (all, out) => all - out)
  const water = isTooLight(into.water, steam)
    ? tally(null, `output of ${preparation.name} not lighter than what cannot boil off`)
    : combine([into.water, steam], (w, lost) => Math.max(0, w - lost))
  const settled = byRefractometer(preparation, asked({ ...into, water, grams: output }, output))
  return withDensity(preparation, settled, () =>
    combine([output, settled.sugars], (out, sugar) =>
      sugar >= 0 && sugar <= out ? (out * 1000) / sucroseDensity(100 * (sugar / out), 20) : Number.NaN,
    ),
  )
}

/** Which Brix does this batch have: read, else by balance of mass? */
export function brixOf(preparation: Preparation, worked: Worked = new Map()): Tally {
  const { brixMeasured } = preparation
  if (brixMeasured !== null) {
    return tally(
      brixMeasured >= 0 && brixMeasured <= 100 ? brixMeasured : null,
      `Brix of ${preparation.name} from 0 to 100`,
    )
  }
  const { sugars, grams } = preparationContents(preparation, worked)
  return combine([sugars, grams], (sugar, mass) => (sugar >= 0 && sugar <= mass ? 100 * (sugar / mass) : Number.NaN))
}

/** Sugar by the refractometer, for inputs whose sugar nobody knows (dates, fruit): free, and as sweet as sucrose. */
function byRefractometer(preparation: Preparation, contents: Contents): Contents {
  const { brixMeasured, name } = preparation
  if (brixMeasured === null || !(brixMeasured >= 0 && brixMeasured <= 100)) return contents
  const read = tally(brixMeasured, '', [`sugars of ${name} from its measured Brix, all free, as sweet as sucrose`])
  const sugars = combine([contents.grams, read], (grams, brix) => (grams * brix) / 100)
  const room = combine([contents.grams, read], (grams, brix) => (grams * 1000) / sucroseDensity(brix, 20))
  const or = (known: Tally, second: Tally) => (known.missing.length > 0 ? second : known)
  if (contents.sugars.missing.length === 0) return { ...contents, volume: or(contents.volume, room) }
  return {
    ...contents,
    sugars,
    freeSugars: or(contents.freeSugars, sugars),
    sweetness: or(contents.sweetness, sugars),
    volume: or(contents.volume, room),
    sources: [{ name, sugars, free: sugars }],
  }
}

/** Without an output nothing of the batch is known per gram, whatever its inputs. */
function asked(contents: Contents, output: Tally): Contents {
  if (output.missing.length === 0) return contents
  return contentsBy((measure) => sum([contents[measure], output]), contents.sources, contents.parts)
}

function mixContents(preparation: Preparation, into: Contents): Contents {
  const output = tooHeavy(preparation, outputOf(preparation), into.grams)
  const left = shareOf(
    into,
    combine([output, into.grams], (out, all) => out / all),
  )
  const cost = sum([into.cost, times(output, 0)])
  const settled = byRefractometer(preparation, { ...left, grams: output, cost })
  return withDensity(preparation, settled, () => settled.volume)
}

/**
 * The liquid less what the strained keeps back. Of what is strained out nothing is counted but its price, its allergens, and,
 * because it may all have gone over, the caffeine that it could have given.
 */
function infusionContents(preparation: Preparation, wholeOf: WholeOf): Contents {
  const { name } = preparation
  const liquid = together(infusedInto(preparation).map((line) => contentsWith(line, null, wholeOf)))
  const strained = strainedOutOf(preparation)
  const dry = together(strained.map((line) => contentsWith({ ...line, form: 'powder' }, null, wholeOf)))
  const output = infusionOutput(preparation, liquid.grams)
  const share = combine([output, liquid.grams], (out, all) => Math.min(1, out / all))
  const left = shareOf(liquid, share)
  const nothing = tally(
    0,
    '',
    strained.map((line) => `${line.name}, strained out of ${name}, leaves no sugar behind`),
  )
  const most = combine([dry.caffeineHigh, share], (mg, part) => mg * part)
  const here: Contents = {
    ...left,
    grams: output,
    sugars: sum([left.sugars, nothing]),
    freeSugars: sum([left.freeSugars, nothing]),
    caffeineLow: sum([left.caffeineLow, times(dry.caffeineLow, 0)]),
    caffeineHigh: sum([left.caffeineHigh, most]),
    cost: sum([liquid.cost, dry.cost, times(output, 0)]),
    parts: [...new Set([...liquid.parts, ...dry.parts])],
  }
  const settled = asRead(preparation, here)
  return withDensity(preparation, settled, () =>
    combine([output, liquid.volume, liquid.grams], (out, ml, all) => (out * ml) / all),
  )
}

/** What stays in, and what is taken out again. */
const infusedInto = ({ inputs }: Preparation) => inputs.filter((line) => line.strainedOut !== true)
const strainedOutOf = ({ inputs }: Preparation) => inputs.filter((line) => line.strainedOut === true)

function infusionOutput(preparation: Preparation, liquid: Tally): Tally {
  const { name, outputGrams, retention } = preparation
  const strained = sum(strainedOutOf(preparation).map(gramsOfLine))
  if (outputGrams !== null) return tooHeavy(preparation, outputOf(preparation), sum([liquid, strained]))
  const kept = tally(
    retention != null && retention >= 0 ? retention : null,
    `output of ${name}, weighed, or what a gram strained out keeps back`,
  )
  const out = combine([liquid, strained, kept], (all, dry, k) => all - k * dry)
  return out.missing.length === 0 && !(out.total > 0)
    ? tally(null, `more liquid in ${name} than what is strained out keeps back`)
    : out
}

/** A refractometer that reads more than the liquid brought has found what went over: it counts, all of it as free sugar. */
function asRead(preparation: Preparation, here: Contents): Contents {
  const { brixMeasured, inputs } = preparation
  if (brixMeasured === null || inputs.some(({ kind }) => kind === 'milk')) return here
  const read = (here.grams.total * brixMeasured) / 100
  const known = here.sugars.missing.length === 0 && here.grams.missing.length === 0
  if (!known || read <= here.sugars.total) return byRefractometer(preparation, here)
  const open = tally(null, '')
  return byRefractometer(preparation, { ...here, sugars: open, freeSugars: open, sweetness: open })
}

function brewContents(preparation: Preparation, liquid: Contents): Contents {
  const { brew, outputGrams, name } = preparation
  const grounds = preparation.inputs.filter((line) => line.form === 'grounds' && !line.preparation)
  if (brew === null) {
    const how = tally(null, `how ${name} is brewed`)
    return contentsBy(() => how, [], [...liquid.parts, ...grounds.flatMap((line) => groundsContents(line, null).parts)])
  }
  const dose = sum(grounds.map(gramsOfLine))
  const out =
    outputGrams !== null && liquid.grams.missing.length === 0 && outputGrams <= liquid.grams.total + dose.total
  const beverage = outputGrams === null ? null : out ? outputGrams : Number.NaN
  const made = brewed(brew, dose, { water: liquid.grams, beverage })
  const shares = grounds.map((line) => {
    const part = combine([gramsOfLine(line), dose], (mass, all) => mass / all)
    return groundsShare(line, brew, made, part)
  })
  const along = combine([made.beverage, made.strength, liquid.grams], (b, t, w) => Math.min(1, (b * (1 - t)) / w))
  const carried = shareOf(liquid, along)
  const solids = sum(shares.map((one) => one.coffeeSolids))
  const whole = together([{ ...carried, cost: liquid.cost }, ...shares])
  const water = combine([made.beverage, solids, carried.grams, carried.water], (b, s, c, w) => w + (b - s - c))
  return withDensity(preparation, { ...whole, grams: made.beverage, water }, () =>
    combine([made.beverage, carried.volume, carried.grams], (b, v, c) => (c > 0 ? (b * v) / c : b)),
  )
}

/** One coffee's part in a brew of several: its caffeine, solids, cost and allergens, no liquid of its own. */
function groundsShare(line: BuildLine, brew: NonNullable<Preparation['brew']>, made: Brewed, part: Tally): Contents {
  const dose = gramsOfLine(line)
  const water = combine([made.water, part], (w, share) => w * share)
  const beverage = combine([made.beverage, part], (b, share) => b * share)
  const alone = groundsContents(line, brew, {
    water,
    beverage: beverage.missing.length > 0 ? Number.NaN : beverage.total,
  })
  const none = times(dose, 0)
  return { ...alone, grams: none, volume: none, water: none }
}
