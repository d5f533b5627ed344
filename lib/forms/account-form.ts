import * as z from 'zod'

/** Ten years. */
const MOST_NAME_DAYS = 3650

const name = z
  .string({ error: 'Please give a name.' })
  .trim()
  .min(1, 'Please give a name.')
  .max(80, 'Please keep it under 80 characters.')

const emailField = z
  .string({ error: 'Please give an email address.' })
  .trim()
  .toLowerCase()
  .pipe(z.email('This does not look like an email address.'))

/** Common practice, no source; what is long and still easily guessed is refused by the act. */
const passwordLength = 12

const newPasswordField = z
  .string({ error: 'Please choose a password.' })
  .min(passwordLength, `Please choose at least ${passwordLength} characters: a few unrelated words do well.`)
  .max(200, 'Please keep it under 200 characters.')

export const SetUpForm = z.object({
  name,
  email: emailField,
  password: newPasswordField,
  cafeName: z
    .string({ error: 'Please name the café.' })
    .trim()
    .min(1, 'Please name the café.')
    .max(80, 'Please keep it under 80 characters.'),
  currency: z
    .string({ error: 'Please give a currency.' })
    .trim()
    .toUpperCase()
    .regex(/^[A-Z]{3}$/, 'Three letters, as on a bank statement: EUR, USD, PHP.')
    .refine(isCurrency, 'This currency code is not in the ISO 4217 list.'),
  allergenList: z.enum(['eu', 'us', 'philippines', 'codex'], { error: 'Please choose a list.' }),
  start: z.enum(['empty', 'demo'], { error: 'Please choose how to start.' }),
})
export type SetUp = z.infer<typeof SetUpForm>

function isCurrency(code: string): boolean {
  return Intl.supportedValuesOf('currency').includes(code)
}

export const AcceptInviteForm = z.object({ name, email: emailField, password: newPasswordField })
export type AcceptInvite = z.infer<typeof AcceptInviteForm>

export const ResetForm = z.object({ password: newPasswordField })

export const ChangePasswordForm = z.object({
  currentPassword: z
    .string({ error: 'Please type your present password.' })
    .min(1, 'Please type your present password.'),
  password: newPasswordField,
})

export const InviteForm = z.object({
  role: z.enum(['owner', 'developer', 'pourer', 'bar', 'viewer'], { error: 'Please choose a role.' }),
  email: z.string().trim().max(200).optional(),
})

export const CafeForm = SetUpForm.pick({ cafeName: true, currency: true, allergenList: true }).extend({
  timeZone: z
    .string({ error: 'Please give a time zone.' })
    .refine(
      (zone) => Intl.supportedValuesOf('timeZone').includes(zone) || zone === 'UTC',
      'This time zone is not in the IANA list.',
    ),
})
/** Days that a taster's name is kept; 0: until somebody asks. */
export const NameDaysForm = z.object({
  nameDays: z
    .string({ error: 'Type a number of days, or 0.' })
    .trim()
    .regex(/^\d{1,4}$/, 'A whole number of days, please; 0 keeps names until somebody asks.')
    .transform(Number)
    .refine(
      (days) => days <= MOST_NAME_DAYS,
      `At most ${MOST_NAME_DAYS} days, please; 0 keeps names until somebody asks.`,
    ),
})

export type CafeSettings = z.infer<typeof CafeForm>
