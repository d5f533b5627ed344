import 'server-only'
import { countHome, findHearsBack, findHomeAnswers, findHomeSheets } from '@/lib/db/home-sheets'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { findNames } from '@/lib/db/people'
import { findRecipe } from '@/lib/db/recipes'
import { findTrials } from '@/lib/db/trials'
import type { Actor, World } from '../world'

/** Sheets and answers that one page shows. */
const SHEETS_AT_ONCE = 20
const ANSWERS_AT_ONCE = 30

/** What somebody at home said: it is beside blind evidence, and nothing is worked out from it. */
export interface HomeAnswerLine {
  readonly id: string
  readonly at: Date
  readonly source: string
  /** null where they did not sign, or it is forgotten */
  readonly name: string | null
  /** 1 to 9, knowing what they had made */
  readonly liking: number | null
  readonly changed: string | null
  readonly further: string | null
  readonly sheetVersion: number
  readonly trial: { readonly number: number; readonly name: string }
  /** who typed or pasted it in; null for what came by a link */
  readonly by: string | null
}

/** What was given out of a recipe, and what came back. @param page  of answers, from 1 */
export async function readHomeSheets(world: World, actor: Actor, recipeId: string, page: number) {
  const { db } = world
  const { cafeId } = actor
  const recipe = await findRecipe(db, cafeId, recipeId)
  if (!recipe) return null
  const [hearsBack, sheets, answers, trials, house] = await Promise.all([
    findHearsBack(db, cafeId),
    findHomeSheets(db, cafeId, recipeId, SHEETS_AT_ONCE),
    findHomeAnswers(db, cafeId, recipeId, { skip: (page - 1) * ANSWERS_AT_ONCE, take: ANSWERS_AT_ONCE + 1 }),
    findTrials(db, cafeId, recipeId),
    findHouseRecipe(db, cafeId, recipeId),
  ])
  const ids = [...sheets.map(({ createdById }) => createdById), ...answers.map(({ enteredById }) => enteredById)]
  const names = await findNames(
    db,
    ids.flatMap((id) => id ?? []),
  )
  return {
    recipe: { id: recipe.id, name: recipe.name },
    hearsBack,
    sheets: sheets.map(({ tokenHash, createdById, _count, ...sheet }) => ({
      ...sheet,
      by: createdById ? (names.get(createdById) ?? 'somebody') : 'the house',
      hasLink: tokenHash !== null && sheet.withdrawnAt === null && hearsBack,
      answers: _count.answers,
    })),
    answers: answers
      .slice(0, ANSWERS_AT_ONCE)
      .map(({ id, at, source, name, liking, changed, text, sheet, ...row }) => ({
        ...{ id, at, source, name, liking, changed },
        further: text,
        sheetVersion: sheet.version,
        trial: sheet.trial,
        by: row.enteredById ? (names.get(row.enteredById) ?? 'somebody') : null,
      })) satisfies readonly HomeAnswerLine[],
    more: answers.length > ANSWERS_AT_ONCE,
    trials: trials
      .filter(({ archivedAt }) => archivedAt === null)
      .map(({ id, number, name, frozenAt }) => ({ id, number, name, draft: frozenAt === null })),
    houseTrialId: house?.trialId ?? null,
  }
}

/** How many sheets were given out of a recipe, and how many answers came back. */
export async function readHomeCount(world: World, actor: Actor, recipeId: string) {
  const [hearsBack, counted] = await Promise.all([
    findHearsBack(world.db, actor.cafeId),
    countHome(world.db, actor.cafeId, recipeId),
  ])
  return { hearsBack, ...counted }
}
