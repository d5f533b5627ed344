import * as z from 'zod'
import { choiceLimits } from '@/lib/panel/kinds/choice'
import { panelKinds, type PanelKind, type SetDesign } from '@/lib/panel/kinds/kinds'
import { rankLimits } from '@/lib/panel/kinds/rank'
import {
  aims,
  checkPlan,
  overallLiking,
  planLimits,
  primaryKinds,
  type FoundProblem,
  type PlanProblem,
  type PrimaryKind,
} from '@/lib/panel/plan'
import { number } from './fields'
import { DifferenceFields, differenceOf, differenceSlips, sayDifferenceProblem } from './difference-form'
import { POINTS } from './number-fields'
import { maybeWords, wholeNumber, words } from './plan-fields'
import { QuestionForm, sayQuestionProblem } from './question-form'

/** "1", "0.5" and "0,5", kept as tenths of a point. */
const points = (ask: string) => {
  const range = 'From 0.1 to 7.9 points, please.'
  const decimals = 'Points with at most one decimal, please: 1 or 0.5.'
  return number(POINTS, {
    empty: ask,
    'not-a-number': decimals,
    'too-many-decimals': decimals,
    'too-little': range,
    'too-much': range,
  }).transform((typed) => Math.round(typed * 10))
}

/** What each problem of a plan is in words; `null` where the form cannot know yet and the task answers. */
export const sayPlanProblem: Record<PlanProblem, string> = {
  'too-few-cups': 'A panel compares at least 2 cups. Choose one more.',
  'too-many-cups': `At most ${planLimits.cups.most} cups in one panel, the hidden duplicate included.`,
  'same-trial-twice':
    'The same trial is there twice. Choose another, or serve it twice on purpose as a hidden duplicate.',
  'duplicate-of-nothing': 'A hidden duplicate repeats one of the chosen cups. Choose that cup above, or no duplicate.',
  'two-duplicates': 'One hidden duplicate is enough to show the noise.',
  'duplicate-of-two':
    'A hidden duplicate needs at least three different trials: of two, whoever finds the odd cup knows all three. Add a trial, or serve none twice.',
  'no-house-cup': 'The house recipe is not among the cups. Add it, or name the cup to compare with.',
  'nothing-to-compare': 'All cups are the same trial. Choose at least one other.',
  'pair-incomplete': 'Choose the two cups of the pair.',
  'pair-of-one': 'A pair is two different trials.',
  'pair-not-served': 'This trial is not among the cups.',
  'same-aspect-twice': 'Each question is asked once; overall liking is always asked.',
  ...sayQuestionProblem,
  'margin-too-wide': 'From 0.1 to 7.9 points, please.',
  'no-yardstick': 'Choose what it is compared with.',
  'margin-missing': 'How much less liked would still be as good? From 0.1 to 7.9 points.',
  'too-many-for-one': `One taster gets at most ${planLimits.cupsPerTaster.most} cups in one sitting: more tire the palate. Say how many of them each taster gets.`,
  'duplicate-of-some':
    'A hidden duplicate needs every taster to get every cup. Choose one of the two: fewer cups each, or a duplicate.',
  'too-few-seats': `With so few seats a cup would be tasted by fewer than ${planLimits.tastingsPerCup} people. Add seats, or give each taster more cups.`,
  'two-cups-only': 'This panel is of two cups. Take the others out, or let each cup be scored.',
  'only-its-own-question': 'This panel asks one thing about its cups together. Further questions need each cup scored.',
  'all-cups-in-a-set': 'Every taster gets all the cups: leave this empty.',
  'share-out-of-range': `From ${choiceLimits.share.least} to ${choiceLimits.share.most} in a hundred, please.`,
  ...sayDifferenceProblem,
  'cups-for-an-order': `An order is of three to six cups. Of two, ask which one; of more, let each taster score some.`,
  'duplicate-in-an-order': 'Two cups of one trial have no order. Serve none twice.',
  'seen-both': 'You say that nothing can be seen, and also what can. Keep one of the two.',
  'seen-not-said':
    'Look at the cups side by side, then say in the plan what gives one away to the eye, or that nothing does.',
}

/** What a new plan of two cups starts from, in percent. */
export const { usualShare } = choiceLimits
/** The same of a plan of an order. */
export const usualAbove = rankLimits.usualShare

const asTyped = z.object({
  kind: z.enum(panelKinds, 'Choose what is asked of tasters.').default('liking'),
  /** of two cups: “no preference” may be said */
  mayHaveNone: z.literal('on').optional(),
  share: wholeNumber('What share is it to find?', choiceLimits.share).optional(),
  odd: DifferenceFields.optional(),
  /** of an order: how many of a hundred put the best cup above any one other */
  above: wholeNumber('How many of 100 put the best above another?', rankLimits.share).optional(),
  title: words('Give the panel a title for the house.', planLimits.title),
  publicTitle: words('Give the title tasters will see.', planLimits.title),
  question: words('Write the question this panel is to answer.', 300),
  aim: z.enum(aims, 'Choose what the panel is to find out.'),
  cups: z.array(z.string()).default([]),
  duplicate: z
    .string()
    .optional()
    .transform((id) => id ?? null),
  aspects: z
    .array(QuestionForm)
    .max(planLimits.questions.most)
    .default([])
    .transform((list, context) => {
      const met = new Set([overallLiking.toLowerCase()])
      for (const [at, asked] of list.entries()) {
        const name = asked?.name.trim().toLowerCase()
        if (name !== undefined && met.has(name))
          context.addIssue({ code: 'custom', path: [at, 'name'], message: sayPlanProblem['same-aspect-twice'] })
        if (name !== undefined) met.add(name)
      }
      return list.flatMap((asked) => asked ?? [])
    }),
  seatCount: wholeNumber('How many seats?', planLimits.seats),
  cupsPerTaster: wholeNumber('How many cups does each taster get?', planLimits.cupsPerTaster)
    .optional()
    .transform((cups) => cups ?? null),
  primaryKind: z.enum(primaryKinds, 'Choose what it is compared with.').optional(),
  pairA: maybeWords(60),
  pairB: maybeWords(60),
  smallestDifference: points('').optional(),
  notWorseMargin: points('').optional(),
  sampleMl: wholeNumber('How much is poured per cup?', planLimits.sampleMl)
    .optional()
    .transform((ml) => ml ?? null),
  seenThrough: maybeWords(120),
  nothingSeen: z
    .literal('on')
    .optional()
    .transform((tick) => tick === 'on'),
})

/** What the kind and the aim leave no choice about is settled here: the best of several compares all of them. */
export const PanelForm = asTyped
  .superRefine(({ kind, aim, smallestDifference, share, above, odd, cups }, context) => {
    if (kind === 'liking' && aim !== 'as-good' && smallestDifference === undefined) {
      const message = 'What is the smallest difference that would matter?'
      context.addIssue({ code: 'custom', path: ['smallestDifference'], message })
    }
    if (kind === 'choice' && share === undefined) {
      context.addIssue({ code: 'custom', path: ['share'], message: 'What share is it to find?' })
    }
    if (kind === 'rank' && above === undefined) {
      const message = 'How many of 100 put the best above another?'
      context.addIssue({ code: 'custom', path: ['above'], message })
    }
    if (kind === 'difference' && odd === undefined)
      context.addIssue({ code: 'custom', path: ['odd', 'aim'], message: 'Choose what the panel is to find out.' })
    if (kind === 'difference' && odd)
      for (const [field, message] of differenceSlips(odd, cups))
        context.addIssue({ code: 'custom', path: ['odd', field], message })
  })
  .transform(({ kind, mayHaveNone, share, above, odd, ...typed }) => {
    if (kind === 'rank') return inOrder(typed, { kind, share: above ?? usualAbove })
    if (kind === 'choice')
      return aboutSets(typed, { kind, none: mayHaveNone === 'on', share: share ?? choiceLimits.usualShare })
    if (kind !== 'difference' || !odd) return aboutCups(typed)
    const { asks, pair } = differenceOf(odd, typed.cups)
    return aboutSets(typed, asks, pair)
  })
  .superRefine((plan, context) => {
    for (const { field, problem } of problemsOf(plan)) {
      context.addIssue({ code: 'custom', path: field.split('.'), message: sayPlanProblem[problem] })
    }
  })
export type PlanTyped = z.infer<typeof PanelForm>

/** Fields of a scale of liking. Where cups are asked about together they are hidden, and a slip in one could be neither seen nor mended. */
const OF_CUPS = /^(duplicate|cupsPerTaster|smallestDifference|notWorseMargin|pairA|pairB|aspects\b.*)$/
const HIDDEN: Readonly<Record<PanelKind, readonly RegExp[]>> = {
  liking: [/^(share|above|mayHaveNone)$/, /^odd\b/],
  choice: [OF_CUPS, /^above$/, /^odd\b/],
  rank: [OF_CUPS, /^(share|mayHaveNone)$/, /^odd\b/],
  difference: [OF_CUPS, /^(share|above|mayHaveNone)$/],
}

/** A plan as it is to be read: without what its kind hides. */
export function withoutHidden(form: FormData): FormData {
  const isHidden = hiddenOf(form)
  if (isHidden === null) return form
  const shown = new FormData()
  for (const [name, value] of form) if (!isHidden(name)) shown.append(name, value)
  return shown
}

/**
 * A stored plan beside one that was typed: where both ask the same, without what that hides, for the typed one came without it
 * and would differ in fields that nobody sees.
 */
export function besideTyped<Values extends Readonly<Record<string, unknown>>>(stored: Values, form: FormData): Values {
  const isHidden = hiddenOf(form)
  if (isHidden === null || stored['kind'] !== form.get('kind')) return stored
  const shown: Values = { ...stored }
  for (const name of Object.keys(shown)) if (isHidden(name)) Reflect.deleteProperty(shown, name)
  return shown
}

/** Which fields does a plan hide that asks this? Null where it says of no kind that it is one. */
function hiddenOf(form: FormData): ((name: string) => boolean) | null {
  const kind = form instanceof FormData ? panelKinds.find((one) => one === form.get('kind')) : undefined
  return kind === undefined ? null : (name) => HIDDEN[kind].some((fields) => fields.test(name))
}

type Typed = Omit<z.infer<typeof asTyped>, 'kind' | 'mayHaveNone' | 'share' | 'above' | 'odd'>
/** Absent where each cup is asked about by itself. */
type Asks = { readonly asks?: SetDesign | undefined }

function aboutCups({ smallestDifference = 0, notWorseMargin, cupsPerTaster, ...typed }: Typed) {
  const all = typed.cups.length + (typed.duplicate ? 1 : 0)
  const asks: typeof typed & Asks & { primaryKind: PrimaryKind; cupsPerTaster: number | null } = {
    ...typed,
    primaryKind: kindOf(typed),
    cupsPerTaster: cupsPerTaster !== null && cupsPerTaster >= all ? null : cupsPerTaster,
  }
  // The difference that matters to “at least as good” is its margin, and to the others there is none.
  return typed.aim === 'as-good'
    ? { ...asks, smallestDifference: notWorseMargin ?? 0, notWorseMargin: notWorseMargin ?? null }
    : { ...asks, smallestDifference, notWorseMargin: null }
}

/** What only a scale of liking has is left out, though the form still sends it: its fields are hidden, not gone. */
function aboutSets(typed: Typed, asks: SetDesign, pair: readonly string[] = typed.cups): ReturnType<typeof aboutCups> {
  const [pairA = null, pairB = null] = pair
  return {
    ...typed,
    ...{ asks, pairA, pairB },
    ...{ duplicate: null, aspects: [], cupsPerTaster: null, smallestDifference: 0, notWorseMargin: null },
    aim: 'better',
    primaryKind: 'one-pair',
  }
}

/** An order compares every cup with every other. */
function inOrder(typed: Typed, asks: SetDesign): ReturnType<typeof aboutCups> {
  return { ...aboutSets(typed, asks), pairA: null, pairB: null, aim: 'best', primaryKind: 'all-pairs' }
}

function kindOf(typed: { readonly aim: string; readonly primaryKind?: PrimaryKind | undefined }): PrimaryKind {
  return typed.aim === 'best' ? 'all-pairs' : (typed.primaryKind ?? 'all-pairs')
}

/** What the form can see by itself; which trial is the house recipe only the database knows. */
function problemsOf(plan: PlanTyped): readonly FoundProblem[] {
  const found = checkPlan({
    ...plan,
    cups: [
      ...plan.cups.map((trialId) => ({ trialId, isHouse: false, isDuplicate: false })),
      ...(plan.duplicate ? [{ trialId: plan.duplicate, isHouse: false, isDuplicate: true }] : []),
    ],
    pair: [plan.pairA, plan.pairB],
  })
  return found.filter(({ problem }) => problem !== 'no-house-cup')
}

export const AddSeatsForm = z.object({
  howMany: wholeNumber('How many more seats?', { least: 1, most: 50 }),
})

export const SeatChangeForm = z.object({
  seat: wholeNumber('Which seat?', { least: 1, most: 400 }),
  change: z.enum(['left', 'paper'], 'Choose what has changed.'),
})

export const SetAsideForm = z.object({
  seat: wholeNumber('Which seat?', { least: 1, most: 400 }),
  why: words('Say in words why it is set aside.', 300),
})

export const TickForm = z.object({ servings: z.array(z.string()).min(1).max(6), poured: z.enum(['yes', 'no']) })

/** Opening asks to be meant, and, where a batch is past its date, what is poured in its place. */
export const OpenPanelForm = z.object({ pourFresh: z.literal('on').optional() })

/** An act that asks nothing but to be meant. */
export const NothingForm = z.object({})
