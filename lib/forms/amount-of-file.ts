import { no, ok } from '@/lib/base/result'
import { withoutPump } from '@/lib/drink/dose'
import { gramsOfShares } from '@/lib/drink/shares'
import type { BuildLine } from '@/lib/drink/trial'
import { findUnit, gramsOf, PART, PERCENT, PUMP } from '@/lib/drink/unit'
import { sayShare } from './say-share'
import type { TrialFile, WrittenTrialFile } from './trial-file'

type FileLine = TrialFile['lines'][number]
type WrittenAmount = NonNullable<WrittenTrialFile['lines'][number]['typed']> | null

/** What is a share or a part and cannot be one here; null where all is well. @param inDrink  a line of the drink itself */
export function sharedAmount({ typed, targetGrams }: FileLine, inDrink: boolean, partGrams: number | undefined) {
  if (typed?.unit !== PERCENT && typed?.unit !== PART) return null
  if (typed.unit === PART && partGrams === undefined) return 'is a part: the file needs partGrams, what one part weighs'
  return inDrink || targetGrams !== undefined ? null : 'is for lines of the drink alone; here it takes grams'
}

/** Lines typed as a share of the drink, with the grams they are where the file says none; detail.path and .message where they cannot be. */
export function withGramsOfShares(file: TrialFile, lines: readonly BuildLine[]) {
  if (!lines.some(({ targetGrams }) => Number.isNaN(targetGrams))) return ok(lines)
  const shares = gramsOfShares(lines, file.brew)
  if (!shares.ok) {
    const at = lines.findIndex(({ key }) => key === shares.detail?.['key'])
    return no('impossible', { path: `lines[${at}].typed`, message: sayShare(shares.reason, shares.detail) })
  }
  return ok(
    lines.map((line) =>
      Number.isNaN(line.targetGrams) ? { ...line, targetGrams: shares.value.get(line.key) ?? Number.NaN } : line,
    ),
  )
}

/** g; of a share that says no grams not a number yet, null where it cannot be known. */
export function gramsOfFileLine(
  { targetGrams, typed, density }: FileLine,
  partGrams: number | undefined,
): number | null {
  if (targetGrams !== undefined) return targetGrams
  if (typed === null) return null
  if (typed.unit === PERCENT) return Number.NaN
  if (typed.unit === PART) return partGrams === undefined ? null : typed.amount * partGrams
  const grams = gramsOf(typed.amount, typed.unit, typed.density ?? density)
  return grams.ok ? grams.value : null
}

/** As it was typed, a share or a part too; all else in a unit that every house knows: presses of a pump stand beside the millilitres that they gave. */
export function writtenAmount(line: Pick<BuildLine, 'typed' | 'targetGrams'>): WrittenAmount {
  if (line.typed?.unit === PERCENT || line.typed?.unit === PART) {
    const { amount, unit, partGrams } = line.typed
    if (unit === PERCENT) return { amount, unit: PERCENT }
    return partGrams === undefined ? null : { amount, unit: PART }
  }
  const known = withoutPump(line)
  const unit = known === null ? null : findUnit(known.unit)
  if (known === null || unit === null) return null
  const pumps = line.typed?.unit === PUMP ? { pumps: line.typed.amount } : {}
  return { amount: known.amount, unit: unit.id, density: known.density, ...pumps }
}

/** As it was typed: where presses are said, the millilitres beside them are what these gave. */
export function readAmount(typed: FileLine['typed'], partGrams: number | undefined): BuildLine['typed'] {
  if (typed === null) return null
  if (typed.unit === PART) return { amount: typed.amount, unit: PART, density: null, partGrams }
  const { pumps, ...amount } = typed
  return pumps === undefined ? amount : { amount: pumps, unit: PUMP, density: amount.density }
}
