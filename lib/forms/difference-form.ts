import * as z from 'zod'
import {
  differenceAims,
  differenceLimits,
  isForced,
  proposedProtocol,
  type DifferenceDesign,
} from '@/lib/panel/kinds/difference'
import type { DifferencePlanProblem } from '@/lib/panel/kinds/set-kind'
import { protocols } from '@/lib/panel/kinds/difference-sets'
import { maybeWords, wholeNumber } from './plan-fields'

/** What is asked of two that may not be told apart: whether anything differs, or which has more of something. */
const oddAsks = ['any', 'named'] as const

/** What a plan of “Can these tasters tell them apart?” has beside every plan; its fields are named odd.aim, odd.share … */
export const DifferenceFields = z.object({
  aim: z.enum(differenceAims, 'Choose what the panel is to find out.'),
  asks: z.enum(oddAsks, 'Choose what is asked.'),
  property: maybeWords(differenceLimits.property),
  /** the trial that should have more of it */
  more: maybeWords(60),
  /** absent: as proposed from the aim */
  protocol: z.enum(protocols, 'Choose a method.').optional(),
  each: wholeNumber('How many answers does each taster give?', differenceLimits.each),
  share: wholeNumber('What share of the tasters?', differenceLimits.share),
  mask: maybeWords(differenceLimits.mask),
})
export type DifferenceTyped = z.infer<typeof DifferenceFields>

/** What each problem of such a plan is in words. */
export const sayDifferenceProblem: Readonly<Record<DifferencePlanProblem, string>> = {
  'seen-and-not-masked':
    'Below you say that a cup can be told by eye: then nobody has to taste it. Say how it is hidden, or let tasters be asked something else.',
  'property-not-said': 'What should one of the two have more of? One word as one says it of two: sweeter.',
  'property-for-nothing': 'This method asks no property. Take it out, or choose two or three alternatives.',
  'method-asks-a-property': 'This method asks for a property: choose above that one is named.',
  'method-asks-no-property':
    'This method asks only whether one is different. For a property choose two or three alternatives.',
  'telling-out-of-range': `From ${differenceLimits.share.least} to ${differenceLimits.share.most} in a hundred, please.`,
  'answers-out-of-range': `From ${differenceLimits.each.least} to ${differenceLimits.each.most}, please.`,
  'one-answer-each':
    'To show that few can tell, one answer each: a second answer of the same person is no independent one, and would make the panel look larger than it is.',
  'property-looks-one-way':
    'To show that few can tell, ask whether one is different. Asked which is sweeter, few right may mean that many find the other one sweeter.',
  'one-answer-of-a-property':
    'Of a property, one answer each: the same people always finding the one, or always the other, would look like more than luck.',
  'too-many-pourings': `More than ${differenceLimits.pourings} cups in one sitting tire the palate. Ask for fewer answers from each.`,
}

/** What a new plan starts from, as it stands in the form. */
export const usualDifference = {
  aim: 'differ',
  asks: 'any',
  each: String(differenceLimits.each.least),
  share: String(differenceLimits.usualShare),
} as const

/** What of it only the whole form can tell: path within it, and the problem's words. */
export function differenceSlips(
  typed: DifferenceTyped,
  cups: readonly string[],
): readonly (readonly [field: keyof DifferenceTyped, words: string])[] {
  const named = typed.asks === 'named'
  const { protocol } = typed
  const slips: (readonly [keyof DifferenceTyped, string])[] = []
  if (protocol && isForced(protocol) && !named) slips.push(['protocol', sayDifferenceProblem['method-asks-a-property']])
  if (protocol && !isForced(protocol) && named)
    slips.push(['protocol', sayDifferenceProblem['method-asks-no-property']])
  if (named && (typed.more === null || !cups.includes(typed.more)))
    slips.push(['more', 'Which of the two chosen cups should have more of it?'])
  return slips
}

/** The plan's design, and its two cups, the one with more of the property first. */
export function differenceOf(
  typed: DifferenceTyped,
  cups: readonly string[],
): { readonly asks: DifferenceDesign; readonly pair: readonly string[] } {
  const { aim, each, share, mask, more } = typed
  const named = typed.asks === 'named'
  const protocol = typed.protocol ?? proposedProtocol(named)
  return {
    asks: { kind: 'difference', aim, protocol, property: named ? typed.property : null, each, share, mask },
    pair: named ? [...cups].toSorted((a, b) => Number(b === more) - Number(a === more)) : cups,
  }
}
