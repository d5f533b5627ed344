import * as z from 'zod'
import { MOST_LEVELS } from '@/lib/drink/nesting'
import { PART, PERCENT, UNITS } from '@/lib/drink/unit'

/** What the texts, numbers and lists of a sheet are held to. */
interface Bounds {
  readonly text: z.ZodString
  readonly above: z.ZodNumber
  readonly part: z.ZodNumber
  readonly free: z.ZodNumber
  readonly fraction: z.ZodNumber
  readonly fewest: number
}

/** Of a file that comes from elsewhere: what cannot be is refused where it stands. */
const asSent: Bounds = {
  text: z.string().min(1),
  above: z.number().positive(),
  part: z.number().min(0).max(100),
  free: z.number().nonnegative(),
  fraction: z.number().min(0).max(1),
  fewest: 1,
}

/** Of what the house has kept: its shape alone. A check that comes later never makes an earlier sheet unreadable. */
const asKept: Bounds = {
  text: z.string(),
  above: z.number(),
  part: z.number(),
  free: z.number(),
  fraction: z.number(),
  fewest: 0,
}

function sheetShape(bounds: Bounds) {
  const { text, above, fewest } = bounds
  const amount = above.nullable().default(null)
  const number = z.number().nullable().default(null)
  const part = bounds.part.nullable().default(null).describe('g per 100 g')
  const free = bounds.free.nullable().default(null)
  const fraction = bounds.fraction.nullable().default(null)

  const composition = z
    .strictObject({
      water: part,
      sugars: part,
      freeSugars: part,
      fat: part,
      protein: part,
      energyKcal: free.describe('kcal per 100 g'),
      coffeeSolids: part,
      caffeineLow: free.describe('mg per 100 g'),
      caffeineHigh: free.describe('mg per 100 g'),
      sweetness: free.describe('g of sucrose as sweet as 100 g of this'),
    })
    .describe('Per 100 g as bought; leave out what is not known')

  const mark = z.enum(['contains', 'may-contain', 'not-stated', 'not-named'])

  const typed = z
    .strictObject({
      amount: above,
      unit: z
        .enum([...UNITS.map(({ id }) => id), PERCENT, PART])
        .describe('percent: of the mass of the drink as built; part: of partGrams. Both on lines of the drink alone'),
      density: amount.describe('g/ml; needed when the unit is a volume'),
      pumps: above.optional().describe('Presses of a pump, where these were typed; amount and unit say what they gave'),
    })
    .describe('The amount as typed; gives the grams when targetGrams is left out')

  const line = z.strictObject({
    key: text.optional().describe('Stable name of the line in this trial; its place is taken when left out'),
    name: text,
    insteadOf: text.nullable().default(null).describe('What the sheet names here, where its cost level used this'),
    kind: z.enum(['coffee', 'sweetener', 'milk', 'water', 'ice', 'other']),
    form: z.enum(['liquid', 'powder', 'grounds', 'ice']).default('liquid'),
    role: z.string().default(''),
    targetGrams: above.optional(),
    weighedGrams: amount,
    toleranceGrams: free,
    typed: typed.nullable().default(null),
    temperature: number.describe('°C when poured'),
    strainedOut: z.boolean().optional().describe('Input of an infusion that is taken out again'),
    grind: text.nullable().default(null).describe('Setting of the grinder, in the words of the house'),
    density: amount.describe('g/ml'),
    densityIsAssumed: z.boolean().optional().describe('The density is the usual one of its like; nobody weighed it'),
    costPerGram: free,
    composition: composition.nullable().default(null),
    allergens: z.record(text, mark).default({}),
    labelRead: z.boolean().default(false),
    alcoholPercent: bounds.part.optional().describe('% by volume, as its label says; left out: not stated'),
    preparation: text.nullable().default(null).describe('Key of a preparation of this file, poured from its batch'),
    anyBatch: z
      .boolean()
      .optional()
      .describe('Whichever batch of the preparation goes first is poured; this one stands for it'),
  })

  const beside = z
    .strictObject({
      line,
      insteadOf: text.describe('The line of this trial it stands for'),
      level: text.nullable().default(null),
      why: z
        .enum(['used', 'not-said', 'other-batch'])
        .describe(
          'used: it was poured, the lines name another; not-said: a level would use it, the level is not said; other-batch: of a preparation that a line names, poured another day',
        ),
    })
    .describe('Counts for allergens, never for figures')

  const brew = z.strictObject({
    method: text,
    brewing: z.enum(['immersion', 'percolation', 'espresso', 'dissolved']),
    ratioKind: z.enum(['water-in', 'beverage-out']).nullable().default(null),
    ratio: amount.describe('g of water or beverage per g of coffee'),
    retention: free.describe('g of liquid kept per g of coffee'),
    extractionPercent: part,
    strengthPercent: part,
    waterTemperature: number.describe('°C of the water when it meets the coffee'),
    seconds: free.describe('s until coffee and water part'),
  })

  const preparation = z.strictObject({
    name: text,
    kind: z.enum(['syrup', 'brew', 'infusion', 'mix']),
    batch: z.string().default(''),
    inputs: z.array(line).min(fewest),
    outputGrams: amount.describe('Weighed, never assumed'),
    brixMeasured: part,
    densityMeasured: amount,
    brew: brew.nullable().default(null),
    storageTemperature: number,
    retention: bounds.free
      .nullable()
      .optional()
      .describe('Infusion: g of liquid kept back per g strained out; counts while no output is weighed'),
  })

  return {
    preparation,
    sheet: z
      .strictObject({
        kind: z.literal('sipwright-trial'),
        version: z.literal(1),
        name: text,
        brew: brew.nullable().default(null),
        coffeeTemperature: number,
        iceTemperature: number,
        vessel: z.strictObject({ name: text, brimMl: above, fillMl: amount }).nullable().default(null),
        room: z.strictObject({ temperature: number, heatLeak: free }).nullable().default(null),
        allergenList: z.enum(['eu', 'us', 'philippines', 'codex']),
        money: z
          .strictObject({
            currency: z.string().default(''),
            wasteFraction: fraction,
            packagingCost: free,
            targetCostFraction: fraction,
            taxFraction: fraction,
            menuPrice: free,
            fixedCost: free,
          })
          .prefault({}),
        preparations: z.record(text, preparation).default({}),
        partGrams: above.optional().describe('g of one part, where lines are typed in parts'),
        level: text.nullable().default(null).describe('The cost level it was made at'),
        lines: z.array(line).min(fewest),
        beside: z.array(beside).default([]),
      })
      .describe('One trial of a drink, with every preparation it is poured from'),
  }
}

/** What a house has kept of a trial: the exchange file without its limits. */
export const KeptSheet = sheetShape(asKept).sheet

/** No drink of a house is larger; a file that is was written by a slip or to do harm. Lines of preparations count as lines. */
export const FILE_LIMITS = { levels: MOST_LEVELS, preparations: 100, lines: 300 }

const sent = sheetShape(asSent)
const limitedInputs = sent.preparation.extend({ inputs: sent.preparation.shape.inputs.max(FILE_LIMITS.lines) })

/**
 * The exchange file of one trial, in grams and °C; money in the café's currency, fractions as 0.25.
 * Its JSON Schema is `trial-file.schema.json`, printed by `npm run -s drink -- --schema`.
 */
export const TrialFile = sent.sheet
  .extend({
    preparations: z
      .record(asSent.text, limitedInputs)
      .default({})
      .meta({
        maxProperties: FILE_LIMITS.preparations,
        description: `At most ${FILE_LIMITS.preparations}, nested at most ${FILE_LIMITS.levels} deep; with theirs the file has at most ${FILE_LIMITS.lines} lines`,
      }),
    lines: sent.sheet.shape.lines.max(FILE_LIMITS.lines),
  })
  .describe('One trial of a drink, with every preparation it is poured from')

/** A trial file that has been read. */
export type TrialFile = z.infer<typeof TrialFile>

/** A trial file as it may be written, defaults left out. */
export type WrittenTrialFile = z.input<typeof TrialFile>

/** JSON Schema (draft 2020-12) of the file. Loops, ratios and balances are checked beyond it, when the trial is built. */
export function trialFileSchema(): object {
  return z.toJSONSchema(TrialFile, { io: 'input' })
}
