import * as z from 'zod'

/** Grams as poured; null where nobody knows. */
const grams = z.number().nullable()

const amount = {
  name: z.string(),
  grams,
  /** only where its density is known */
  ml: z.number().nullable(),
  /** g/ml that these millilitres are by, where it is the usual one of its like and nobody weighed it; null on older sheets */
  assumedDensity: z.number().nullable().default(null),
  /** spoons and cups, where the house weighed them; null where it did not */
  home: z.string().nullable(),
}

const Line = z.object({
  ...amount,
  /** of grounds: how they are brewed; `gives` is what reaches the glass */
  brew: z
    .object({
      water: grams,
      grind: z.string().nullable(),
      waterTemperature: z.number().nullable(),
      seconds: z.number().nullable(),
      gives: grams,
    })
    .nullable(),
  /** made in the house: it stands among the preparations */
  isMade: z.boolean(),
})

const Made = z.object({
  name: z.string(),
  inputs: z.array(z.object({ ...amount, isMade: z.boolean(), celsius: z.number().nullable() })),
  /** what all of it came to */
  outputGrams: grams,
  brix: z.number().nullable(),
  celsius: z.number().nullable(),
  keepsHours: z.number().nullable(),
  steps: z.array(z.object({ text: z.string(), minutes: z.number().nullable() })),
})

/** What labels say, and what must be said beside the drink. Read again each time somebody opens a link. */
const Warnings = z.object({
  list: z.string(),
  contains: z.array(z.string()),
  mayContain: z.array(z.string()),
  unread: z.array(z.string()),
  cautions: z.array(z.string()),
  caffeine: z.discriminatedUnion('known', [
    z.object({ known: z.literal(true), low: z.number(), high: z.number() }),
    z.object({
      known: z.literal(false),
      missing: z.array(z.string()),
      atLeast: z.object({ low: z.number(), high: z.number(), of: z.array(z.string()) }).nullable(),
    }),
  ]),
})

/**
 * What stood on a sheet for somebody who makes the drink at home, as it was given out: no money, no supplier, no panel and
 * nobody's name.
 */
const HomeSheetShape = z.object({
  kind: z.literal('sipwright-home-sheet'),
  form: z.literal(1),
  cafe: z.string(),
  recipe: z.string(),
  trial: z.object({ number: z.number(), name: z.string() }),
  /** `trial`: poured as it stands and not the house recipe; `draft`: nobody has tasted it */
  standing: z.enum(['house', 'trial', 'draft']),
  houseVersion: z.number().nullable(),
  /** in a blind panel that is over */
  tasted: z.boolean(),
  method: z.string(),
  vessel: z.string().nullable(),
  lines: z.array(Line),
  steps: z.array(z.object({ text: z.string(), seconds: z.number().nullable() })),
  made: z.array(Made),
  warnings: Warnings,
})

export type HomeSheetContent = z.infer<typeof HomeSheetShape>
export type HomeWarnings = HomeSheetContent['warnings']

export const writeHomeSheet = (content: HomeSheetContent): string => JSON.stringify(content)

/** @returns null for what is no sheet */
export function readHomeSheetText(text: string): HomeSheetContent | null {
  try {
    const read = HomeSheetShape.safeParse(JSON.parse(text))
    return read.success ? read.data : null
  } catch (error) {
    if (error instanceof SyntaxError) return null
    throw error
  }
}
