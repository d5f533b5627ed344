import * as z from 'zod'
import { methods } from '@/lib/drink/method'
import { isDoseUnit } from '@/lib/drink/unit'
import { amount, celsius, density, note, number, percentage, whole, words } from './fields'
import { ingredientForms, ingredientKinds } from './ingredient-form'
import { MINUTES, THOUSANDTHS } from './number-fields'

const unit = z.string({ error: 'Choose a unit.' }).refine(isDoseUnit, 'Choose one of the units.')
const method = z
  .string({ error: 'Choose how the coffee is made.' })
  .refine((id) => methods.some((known) => known.id === id), 'Choose one of the methods.')

/** "ingredient:ID", "batch:ID", or "new" with a name beside. */
const part = z
  .string()
  .regex(/^(ingredient:.+|batch:.+|new)$/, 'Choose what it is.')
  .optional()

const name = z.string().trim().max(80, 'Please keep it under 80 characters.').optional()

const TrialLineForm = z
  .object({
    /** what it is there for; left out, what it is */
    role: z.enum(ingredientKinds).optional(),
    part,
    newName: name,
    newKind: z.enum(ingredientKinds).optional(),
    newForm: z.enum(ingredientForms).optional(),
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
  })
export type TrialSent = z.infer<typeof TrialForm>

/** A few fields and a minute: what a first trial needs. */
export const FirstTrialForm = z
  .object({
    name: words('Give this trial a name that tells it from the others.', 80),
    method,
    coffeePart: part,
    coffeeName: name,
    coffeeForm: z.enum(ingredientForms).exclude(['ice']).optional(),
    coffee: amount('How much dry coffee, in grams?', THOUSANDTHS).optional(),
    water: amount('How much water (or beverage), in grams?', THOUSANDTHS).optional(),
    sweetener: part,
    sweetenerAmount: amount(undefined, THOUSANDTHS).optional(),
    milk: part,
    milkAmount: amount().optional(),
    milkDensity: density().optional(),
    milkDensityFor: z.string().optional(),
    ice: amount(undefined, THOUSANDTHS).optional(),
  })
  .superRefine((sheet, context) => {
    const need = (path: string, message: string) => context.addIssue({ code: 'custom', path: [path], message })
    if (sheet.sweetener && !sheet.sweetenerAmount) need('sweetenerAmount', 'How much of it, in grams?')
    if (sheet.sweetenerAmount && !sheet.sweetener) need('sweetener', 'Of which sweetener?')
    if (sheet.milk && !sheet.milkAmount) need('milkAmount', 'How much of it, in ml?')
    if (sheet.milkAmount && !sheet.milk) need('milk', 'Of which milk?')
    if (sheet.coffee && !sheet.coffeePart) need('coffeePart', 'Of which coffee?')
    if (sheet.coffee && sheet.coffeePart === 'new') {
      if (!sheet.coffeeName) need('coffeeName', 'Give it a name.')
      if (!sheet.coffeeForm) need('coffeeForm', 'Say how it enters the glass.')
    }
    const brewed = methods.find((known) => known.id === sheet.method)?.brewing
    if (brewed && !sheet.coffee) need('coffee', 'How much dry coffee, in grams?')
    if (brewed && sheet.coffee && !sheet.water) need('water', 'How much water (or beverage), in grams?')
    if (
      brewed &&
      brewed !== 'espresso' &&
      sheet.coffee &&
      sheet.water &&
      sheet.water.value <= 2 * sheet.coffee.value &&
      brewed !== 'dissolved'
    )
      need('water', 'The grounds keep about 2 g of water per gram: more water must go in than that.')
    if (!sheet.coffee && !sheet.sweetenerAmount && !sheet.milkAmount) need('coffee', 'A trial needs at least one part.')
  })
export type FirstTrial = z.infer<typeof FirstTrialForm>

export const NoteForm = z.object({ text: words('Write the note first.', 2000) })

export const BranchForm = z.object({ name: words('Name what you will vary: “35 g date syrup”.', 80) })

export const ImportForm = z.object({
  content: z
    .string({ error: 'Choose a file, or paste its text.' })
    .max(500_000, 'This is more than half a megabyte: is it a trial file?'),
})
