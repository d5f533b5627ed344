import 'server-only'
import { createHash } from 'node:crypto'
import type { BatchRow } from '@/lib/db/batches'
import type { CafeFacts, HouseScales } from '@/lib/db/cafes'
import type { IngredientCardRow } from '@/lib/db/ingredients'
import type { PanelRecord } from '@/lib/db/panels'
import type { PreparationRow } from '@/lib/db/preparations'
import type { TrialRow } from '@/lib/db/trials'
import type { Currency } from '@/lib/forms/fields'

/**
 * A form that changes what is stored carries the mark of what it was opened with. The act compares it, in its own
 * transaction, with what stands there now: two tabs, two people or the Back button never undo one another without a word.
 */
export type OpenedWith = string

/** @param opened  the mark a form sent; null for an act that no form was opened for */
export function isStale(opened: OpenedWith | null, now: OpenedWith): boolean {
  return typeof opened === 'string' && opened !== now
}

/** Of an open panel to which seats are added: how many there are. */
export const seatsMark = (seats: number): OpenedWith => String(seats)

/** Of a closed panel that is decided on: how often that was done, and which house recipe would be kept. */
export const decisionMark = (decisions: number, houseTrialId: string | null): OpenedWith =>
  markOf({ decisions, houseTrialId })

function markOf(stored: unknown): OpenedWith {
  const inOrder = (_key: string, value: unknown): unknown =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).toSorted(([a], [b]) => (a < b ? -1 : 1)))
      : value
  return createHash('sha256').update(JSON.stringify(stored, inOrder)).digest('base64url').slice(0, 22)
}

/** Left out by name, so that a column to come counts from its first day. */
function without<Row extends object>(row: Row, ...names: readonly string[]): object {
  return Object.fromEntries(Object.entries(row).filter(([name]) => !names.includes(name)))
}

/** Counted beside any form: a count changes nothing that one was opened with. */
const counts = ['shelfMg', 'shelfAt'] as const

const born = ['id', 'cafeId', 'isDemo', 'createdAt', 'createdById', 'archivedAt', 'frozenAt'] as const

export function trialMark({ lines, steps, ...trial }: TrialRow): OpenedWith {
  const own = without(
    trial,
    ...born,
    'recipeId',
    'number',
    'parentId',
    'frozenSheet',
    'notes',
    'vessel',
    'costLevel',
    'recipe',
  )
  return markOf({
    ...own,
    lines: lines.map((line) => without(line, 'id', 'cafeId', 'trialId', 'alternatives')),
    steps: steps.map((step) => without(step, 'id', 'cafeId', 'trialId')),
  })
}

export function ingredientMark({ allergens, labelReadAt, ...row }: IngredientCardRow): OpenedWith {
  const marks = allergens.map(({ allergen, state }) => `${allergen} ${state}`).toSorted()
  return markOf({ ...without(row, ...born, ...counts, 'prices', 'labelReadById'), marks, isRead: labelReadAt !== null })
}

export function preparationMark(row: PreparationRow): OpenedWith {
  return markOf(without(row, ...born))
}

export function batchMark({ inputs, ...row }: BatchRow): OpenedWith {
  const own = without(row, ...born, ...counts, 'preparationId', 'number', 'madeById', 'preparation', 'retentionMilli')
  return markOf({ ...own, inputs: inputs.map((input) => without(input, 'id', 'cafeId', 'batchId')) })
}

/** A version is added and never changed: the one that counts is told by its number. */
export function formulaMark(newest: { readonly version: number } | null): OpenedWith {
  return markOf({ version: newest?.version ?? 0 })
}

export function vesselMark(row: object, { currency }: Currency): OpenedWith {
  return markOf({ ...without(row, ...born), currency })
}

export function scalesMark(row: HouseScales): OpenedWith {
  return markOf(row)
}

/** A recipe's name and description, and nothing of its money. */
export function recipeWordsMark({ name, note }: { readonly name: string; readonly note: string | null }): OpenedWith {
  return markOf({ name, note })
}

/** What a recipe sells for and what surrounds it; its name and note are no part of that page. */
export function recipeMoneyMark(row: object, { currency }: Currency): OpenedWith {
  const own = without(
    row,
    ...born,
    'name',
    'note',
    'sizeIceBp',
    'sizeCoffeeBp',
    'trials',
    'panels',
    'decisions',
    'costLevels',
  )
  return markOf({ ...own, currency })
}

/** The price of one size, null where it has none. */
export function sizePriceMark(priceMinor: number | null, { currency }: Currency): OpenedWith {
  return markOf({ priceMinor, currency })
}

export function cafeMark({ name, currency, timeZone, allergenList }: CafeFacts): OpenedWith {
  return markOf({ name, currency, timeZone, allergenList })
}

const notPlanned = [
  'stage',
  'copiedFromId',
  'openedAt',
  'openedById',
  'closedAt',
  'closedById',
  'calledOffAt',
  'calledOffById',
  'cafe',
  'recipe',
] as const

export function planMark({ cups, attributes, ...panel }: PanelRecord): OpenedWith {
  return markOf({
    ...without(panel, ...born, ...notPlanned),
    cups: cups.map(({ trialId, isDuplicate }) => ({ trialId, isDuplicate })),
    attributes: attributes.map(({ name, kind, options }) => ({ name, kind, options })),
  })
}

/** What one level uses on the lines of a trial. Saving a sheet makes its lines anew, and a choice belongs to a line. */
export function alternativesMark({ lines }: TrialRow, costLevelId: string): OpenedWith {
  const chosenOn = ({ alternatives }: TrialRow['lines'][number]) =>
    alternatives
      .filter((row) => row.costLevelId === costLevelId)
      .map(
        ({ ingredientId, batchId, preparationId }) => `${ingredientId ?? ''} ${batchId ?? ''} ${preparationId ?? ''}`,
      )
  return markOf(lines.map((line) => [line.id, ...chosenOn(line)]))
}

export function nameDaysMark(nameDays: number | null): OpenedWith {
  return markOf({ nameDays })
}
