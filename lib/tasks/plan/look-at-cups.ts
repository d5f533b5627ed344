import 'server-only'
import { no, type Result } from '@/lib/base/result'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findTrialsWithCafe } from '@/lib/db/trials'
import { ingredientTold, sameDrinks } from '@/lib/drink/tell-apart'
import { partsNamedIn, readStore } from '../store/reach-store'
import { trialBuild } from '../trial/trial-build'

/** What is wrong with the cups of a plan that only their sheets can show. */
export type CupLook =
  | { readonly problem: 'same-drink'; readonly name: string; readonly twin: string }
  | { readonly problem: 'title-tells'; readonly name: string }
  | { readonly problem: 'title-names-ingredient'; readonly ingredient: string }

/** Where on the plan it belongs. */
export const fieldOfLook: Readonly<Record<CupLook['problem'], string>> = {
  'same-drink': 'cups',
  'title-tells': 'publicTitle',
  'title-names-ingredient': 'publicTitle',
}

/** The first of them as a refusal, its words' names in the detail. */
export function refuseLook(
  { problem, ...names }: CupLook,
  more: Readonly<Record<string, string>> = {},
): Extract<Result<never, CupLook['problem']>, { ok: false }> {
  return no(problem, { ...more, ...names })
}

/**
 * Are two of these trials one drink, and does the title that tasters read name one of them, or an ingredient that
 * differs? A hidden duplicate is no second trial: give each trial once.
 */
export async function lookAtCups(
  db: Db | Tx,
  cafeId: string,
  now: Date,
  plan: { readonly trialIds: readonly string[]; readonly publicTitle: string },
): Promise<readonly CupLook[]> {
  const found = await findTrialsWithCafe(db, cafeId, [...new Set(plan.trialIds)])
  if (!found) return []
  const store = await readStore(db, cafeId, now, partsNamedIn(found.trials))
  // As their lines read today, frozen or not: the same ingredient has one name then, and the same preparation one batch.
  const builds = found.trials.map((trial) => trialBuild(trial, store, found.cafe, 'today'))
  const looks: CupLook[] = []
  const [one, other] = (sameDrinks(builds) ?? []).map((at) => builds[at]?.name ?? '')
  if (one !== undefined && other !== undefined) looks.push({ problem: 'same-drink', name: one, twin: other })

  const told = builds.find((build) => tells(plan.publicTitle, build.name))
  const ingredient = ingredientTold(plan.publicTitle, builds)
  if (told) looks.push({ problem: 'title-tells', name: told.name })
  else if (ingredient !== null) looks.push({ problem: 'title-names-ingredient', ingredient })
  return looks
}

/** Tasters read the public title: a trial's name in it is half the key. */
function tells(publicTitle: string, trialName: string): boolean {
  const plain = (text: string) =>
    ` ${text
      .toLocaleLowerCase('en')
      .replace(/[^\p{L}\p{N}]+/gu, ' ')
      .trim()} `
  return plain(trialName).trim().length >= 3 && plain(publicTitle).includes(plain(trialName))
}
