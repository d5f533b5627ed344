import * as z from 'zod'
import { differenceAims, differenceLimits, proposedProtocol } from '@/lib/panel/kinds/difference'
import { protocols } from '@/lib/panel/kinds/difference-sets'
import { sayDifferenceProblem } from './difference-form'

const whole = ({ least, most }: { readonly least: number; readonly most: number }) =>
  z
    .string()
    .trim()
    .regex(/^\d{1,3}$/)
    .transform(Number)
    .pipe(z.number().min(least).max(most))

/** What of a plan that asks whether two can be told apart its figures are worked out from, half typed as it may be. */
export const DifferenceFigures = {
  oddAim: z.enum(differenceAims).catch('differ'),
  oddAsks: z.enum(['any', 'named']).catch('any'),
  oddProtocol: z.enum(protocols).nullable().catch(null),
  oddEach: whole(differenceLimits.each).nullable().catch(null),
  oddShare: whole(differenceLimits.share).nullable().catch(null),
}

interface Typed {
  readonly oddAim: (typeof differenceAims)[number]
  readonly oddAsks: 'any' | 'named'
  readonly oddProtocol: (typeof protocols)[number] | null
  readonly oddEach: number | null
  readonly oddShare: number | null
}

/** Why a plan as it is typed would be refused whatever else is said, so that nothing is reckoned for it; null where nothing speaks against it. */
export function sayRefused({ oddAim, oddAsks, oddEach }: Pick<Typed, 'oddAim' | 'oddAsks' | 'oddEach'>): string | null {
  if (oddAsks !== 'named') return null
  if (oddAim === 'alike') return sayDifferenceProblem['property-looks-one-way']
  return oddEach !== null && oddEach > 1 ? sayDifferenceProblem['one-answer-of-a-property'] : null
}

/** The design as far as it is typed. @returns null while its share or number of answers is not, and of one that is refused */
export function designTyped(typed: Typed) {
  const { oddAim: aim, oddAsks, oddProtocol, oddEach, oddShare } = typed
  if (oddEach === null || oddShare === null || sayRefused(typed) !== null) return null
  const protocol = oddProtocol ?? proposedProtocol(oddAsks === 'named')
  return { kind: 'difference', aim, protocol, property: null, each: oddEach, share: oddShare, mask: null } as const
}
