import 'server-only'
import type { Db, Tx } from '../engine/client'
import { differenceRules } from './difference'
import { houseRules } from './house'
import { panelRules } from './panel'
import { rankRules } from './rank'
import { recipeRules } from './recipe'
import { sharedRules, type SharedRule } from './shared-columns'
import { setRules } from './set'
import { sittingRules } from './sitting'
import { storeRules } from './store'

const rules = [
  ...houseRules,
  ...storeRules,
  ...recipeRules,
  ...panelRules,
  ...sittingRules,
  ...setRules,
  ...differenceRules,
  ...rankRules,
] as const

/** What does not hold. */
export type BookCode = (typeof rules)[number]['code'] | SharedRule['code'] | 'not-readable'

export interface Complaint {
  readonly code: BookCode
  /** where: ids and what stands there */
  readonly values: Readonly<Record<string, string>>
}

/**
 * What must hold in every house and the schema cannot state: which of it is broken, and where. Empty when the books balance.
 * It writes nothing and never throws: a rule that cannot be looked at is a complaint itself, `not-readable`.
 *
 * Limits   Counts and belongings, not contents: figures, sentences and JSON are not worked out again.
 */
export async function checkBooks(db: Db | Tx): Promise<readonly Complaint[]> {
  const complaints: Complaint[] = []
  const attempt = async (what: string, look: () => Promise<void>) => {
    try {
      await look()
    } catch {
      complaints.push({ code: 'not-readable', values: { rule: what } })
    }
  }
  const ask = ({ code, find }: { readonly code: BookCode; readonly find: string }) =>
    attempt(code, async () => {
      const rows = await db.$queryRawUnsafe<Record<string, unknown>[]>(find)
      for (const row of rows) complaints.push({ code, values: inWords(row) })
    })
  await attempt('relations', async () => {
    for (const rule of await sharedRules(db)) await ask(rule)
  })
  for (const rule of rules) await ask(rule)
  return complaints
}

function inWords(row: Readonly<Record<string, unknown>>): Record<string, string> {
  return Object.fromEntries(Object.entries(row).map(([name, value]) => [name, String(value)]))
}
