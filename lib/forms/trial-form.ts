import * as z from 'zod'
import { methods } from '@/lib/drink/method'
import { findUnit, gramsOf, isDoseUnit, isSheetUnit, PART } from '@/lib/drink/unit'
import { amount, celsius, density, note, number, percentage, price, whole, words, type Currency } from './fields'
import { ingredientForms, ingredientKinds, isAllergen } from './ingredient-form'
import { MINUTES, PART_GRAMS, THOUSANDTHS } from './number-fields'
import { PART_MISSING, partWords } from './say-share'

const unit = z.string({ error: 'Choose a unit.' }).refine(isSheetUnit, 'Choose one of the units.')
/** A unit that has a size of its own: no pump. */
const measure = z.string({ error: 'Choose a unit.' }).refine((id) => findUnit(id) !== null, 'Choose one of the units.')
const method = z
  .string({ error: 'Choose how the coffee is made.' })
  .refine((id) => methods.some((known) => known.id === id), 'Choose one of the methods.')

/** "ingredient:ID", "batch:ID", "preparation:ID" (whichever batch of it goes first), or "new" with a name beside. */
const part = z
  .string()
  .regex(/^(ingredient:.+|batch:.+|preparation:.+|new)$/, 'Choose what it is.')
  .optional()

const name = z.string().trim().max(80, 'Please keep it under 80 characters.').optional()

const allergens = z.array(z.string()).transform((ids) => ids.filter(isAllergen))

const TrialLineForm = z
  .object({
    /** what it is there for; left out, what it is */
    role: z.enum(ingredientKinds).optional(),
    part,
    newName: name,
    newKind: z.enum(ingredientKinds).optional(),
    newForm: z.enum(ingredientForms).optional(),
    /** somebody has the pack in the hand and read all of its label */
    labelRead: z.literal('on').optional(),
    /** what the label names beside what is known of it */
    contains: z.preprocess((sent) => (sent === undefined ? sent : [sent].flat()), allergens.optional()),
    /** of one pack, in the café's money: read by `inMoneyOf` */
    price: z.string().trim().max(40, 'This is no price.').optional(),
    pack: amount('A price needs a pack: how much do you get for it?').optional(),
    packUnit: measure.optional(),
    amount: amount().optional(),
    unit: unit.default('g'),
    density: density().optional(),
    /** the part the density was typed for: for any other it does not count */
    densityFor: z.string().optional(),
    weighed: amount(undefined, THOUSANDTHS).optional(),
    tolerance: amount(undefined, THOUSANDTHS).optional(),
    temperature: celsius(-40, 100).optional(),
    grind: words('Say how it is ground.', 60).optional(),
    note: note(200),
    /** where the line stands in the build; rows keep their number when they are moved */
    place: z
      .string()
      .regex(/^\d{1,3}$/)
      .transform(Number)
      .optional(),
  })
  .superRefine((line, context) => {
    const says = line.part !== undefined || line.newName !== undefined
    if (!says && !line.amount) return
    if (!says) context.addIssue({ code: 'custom', path: ['part'], message: 'Choose what it is.' })
    if (isNew(line)) {
      if (!line.newName) context.addIssue({ code: 'custom', path: ['newName'], message: 'Give it a name.' })
      if (!line.newKind) context.addIssue({ code: 'custom', path: ['newKind'], message: 'Say what it is.' })
      if (!line.newForm)
        context.addIssue({ code: 'custom', path: ['newForm'], message: 'Say how it enters the glass.' })
    }
    if (!line.amount) context.addIssue({ code: 'custom', path: ['amount'], message: 'Type an amount.' })
    if (line.price && !line.pack)
      context.addIssue({
        code: 'custom',
        path: ['pack'],
        message: 'A price needs a pack: how much do you get for it?',
      })
    if (line.pack && !line.price)
      context.addIssue({ code: 'custom', path: ['price'], message: 'Type the price of a pack.' })
  })
export type TrialLineSent = z.infer<typeof TrialLineForm>

/** Is this something that only has a name yet? */
export function isNew({
  part,
  newName,
}: {
  readonly part?: string | undefined
  readonly newName?: string | undefined
}) {
  return part === 'new' || (part === undefined && newName !== undefined)
}

/** The whole sheet of a trial. Rows left empty are dropped. */
export const TrialForm = z
  .object({
    name: words('Give this trial a name that tells it from the others.', 80),
    method,
    ratioKind: z.enum(['water-in', 'beverage-out']).optional(),
    ratio: amount(undefined, THOUSANDTHS).optional(),
    retention: amount(undefined, THOUSANDTHS).optional(),
    extraction: percentage().optional(),
    strength: percentage().optional(),
    vesselId: z.string().optional(),
    waterTemperature: celsius(0, 100).optional(),
    brewMinutes: number(MINUTES, { 'too-much': 'This is more than two days.' }).optional(),
    coffeeTemperature: celsius(-5, 100).optional(),
    iceTemperature: celsius(-40, 0).optional(),
    iceIsWet: z.literal('on').optional(),
    costLevelId: z.string().optional(),
    lines: z.array(z.preprocess((line) => line ?? {}, TrialLineForm)).default([]),
    /** g of one part, where lines are given in parts */
    partGrams: number(PART_GRAMS, partWords).optional(),
    steps: z
      .array(
        z.object({
          text: note(300),
          seconds: whole('Type seconds.', 172_800, 'This is more than two days.').optional(),
        }),
      )
      .default([]),
  })
  .superRefine((sheet, context) => {
    if (sheet.ratio && !sheet.ratioKind)
      context.addIssue({
        code: 'custom',
        path: ['ratioKind'],
        message: 'Say which: coffee to water in, or dose to beverage out.',
      })
    const retention = sheet.retention?.value ?? 2
    if (sheet.ratio && sheet.ratioKind === 'water-in' && sheet.ratio.value <= retention)
      context.addIssue({
        code: 'custom',
        path: ['ratio'],
        message: `The grounds keep ${retention} g of water per gram: the water must be more than that, or nothing comes out.`,
      })
    if (!sheet.lines.some((line) => line.amount))
      context.addIssue({ code: 'custom', path: ['lines'], message: 'A trial needs at least one line.' })
    if (!sheet.partGrams && sheet.lines.some((line) => line.amount && line.unit === PART))
      context.addIssue({ code: 'custom', path: ['partGrams'], message: PART_MISSING })
  })
export type TrialSent = z.infer<typeof TrialForm>

/** Are the prices on the lines written in this café's money? For `superRefine`, where the café is known. */
export const inMoneyOf =
  (cafe: Currency) =>
  ({ lines }: { readonly lines: readonly TrialLineSent[] }, context: z.RefinementCtx) => {
    for (const [row, line] of lines.entries()) {
      const read = line.price ? price('Type the price of a pack.', cafe).safeParse(line.price) : null
      const message = read?.error?.issues[0]?.message
      if (message) context.addIssue({ code: 'custom', path: ['lines', row, 'price'], message })
    }
  }

/** g/ml of drinking water at 20 °C; ICUMSA SPS-4. */
const WATER = 0.9982

/** A few fields and a minute: what a first trial needs. The first of its lines is the coffee. */
export const FirstTrialForm = z
  .object({
    name: words('Give this trial a name that tells it from the others.', 80),
    method,
    water: amount('How much water (or beverage)?', THOUSANDTHS).optional(),
    waterUnit: measure.default('g'),
    ice: amount(undefined, THOUSANDTHS).optional(),
    iceUnit: measure.default('g'),
    lines: z.array(z.preprocess((line) => line ?? {}, TrialLineForm)).default([]),
  })
  .superRefine((sheet, context) => {
    const need = (path: (string | number)[], message: string) => context.addIssue({ code: 'custom', path, message })
    const [coffee] = sheet.lines
    const brewing = methods.find((known) => known.id === sheet.method)?.brewing
    if (brewing && !coffee?.amount && !coffee?.part) need(['lines', 0, 'amount'], 'How much dry coffee?')
    if (brewing && coffee?.amount && !sheet.water) need(['water'], 'How much water (or beverage)?')
    const water = waterGrams(sheet)
    const dose = doseGrams(sheet)
    const isDrained = brewing === 'immersion' || brewing === 'percolation'
    if (isDrained && water !== null && dose !== null && water <= 2 * dose)
      need(['water'], 'The grounds keep about 2 g of water per gram: more water must go in than that.')
    if (!sheet.lines.some((line) => line.amount)) need(['lines', 0, 'amount'], 'A trial needs at least one part.')
    const shared = sheet.lines.findIndex((line) => line.amount && !isDoseUnit(line.unit))
    if (shared >= 0) need(['lines', shared, 'unit'], 'Choose one of the units.')
  })
export type FirstTrial = z.infer<typeof FirstTrialForm>

/** Grams of the water, or of the beverage, of a first trial; null where none was typed. */
export function waterGrams({ water, waterUnit }: Pick<FirstTrial, 'water' | 'waterUnit'>): number | null {
  const grams = water && gramsOf(water.value, waterUnit, WATER)
  return grams?.ok ? grams.value : null
}

/** Grams of the dry coffee of a first trial; null where it was not typed by mass. */
export function doseGrams({ lines: [coffee] }: Pick<FirstTrial, 'lines'>): number | null {
  if (!coffee?.amount || findUnit(coffee.unit)?.of !== 'mass') return null
  const grams = gramsOf(coffee.amount.value, coffee.unit, null)
  return grams.ok ? grams.value : null
}

export const NoteForm = z.object({ text: words('Write the note first.', 2000) })

export const BranchForm = z.object({ name: words('Name what you will vary: “35 g date syrup”.', 80) })

export const ImportForm = z.object({
  content: z
    .string({ error: 'Choose a file, or paste its text.' })
    .max(500_000, 'This is more than half a megabyte: is it a trial file?'),
})
