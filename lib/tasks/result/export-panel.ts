import 'server-only'
import { stringify } from 'csv-stringify/sync'
import { findPanel, type PanelRecord } from '@/lib/db/panels'
import { findClosingAnswer, findDecisionsOfPanel, findKey } from '@/lib/db/results'
import { designOf, findSetKind, type PanelKind } from '@/lib/panel/kinds/kinds'
import { readSetAnswer } from '@/lib/panel/kinds/set-kind'
import { questionOf } from '@/lib/panel/question'
import { findTooMuch } from '@/lib/panel/who-may-taste'
import { seatsAside } from './aside-readings'
import { findClosedServings, inHeadline, type ClosedServing } from './closed-servings'
import { keptLater, readClosingAnswer } from './closing-answer'
import { laterAnswers } from './answered-sets'
import { choiceColumns, exportChoice } from './choice-export'
import { differenceColumns, exportDifference } from './difference-export'
import { exportRank, rankColumns } from './rank-export'
import { countedScore, resultCups, saysDislike } from './panel-answers'
import { planOf } from '../plan/plan-of'
import { correctionsOf } from './result-corrections'
import type { Actor, World } from '../world'

/** The columns of the score file, each with what it means. The `stats` command reads the file as it is. */
export const scoreColumns = [
  ['panel', 'title of the panel, for the house'],
  ['taster', 'number of the seat; names of tasters are not taken away'],
  ['position', 'place in this seat’s order, 1 was tasted first'],
  ['code', 'the three digits on this serving'],
  ['cup', 'letter of the trial in this panel, as on the result page'],
  ['trial', 'number of the trial in its recipe'],
  ['trial_name', 'name of the trial'],
  ['house_recipe', 'yes if the trial was the house recipe when the panel opened'],
  ['replicate', '1, or 2 for the second pouring of a hidden duplicate'],
  ['attribute', 'what was asked: overall liking first'],
  [
    'asked_as',
    'liking-9, just-right-5, intensity-100 or words: how it was asked, and what the number in score stands for',
  ],
  [
    'score',
    'liking: 1 (dislike extremely) to 9 (like extremely); just right: 1 (too little, by far) to 5 (too much, by far), 3 is just right; strength: 0 to 100; words: 1 for the first, 2 for the second, 4 for the third … added up; empty if nothing was said in time',
  ],
  ['late_score', 'arrived after closing; kept, never counted'],
  ['set_apart_score', 'given when this taster had opened the serving list of the panel; kept, never counted'],
  [
    'set_aside',
    'no, before-closing or after-closing: whether the house has set this seat aside, and whether anybody could read a score by then',
  ],
  ['set_aside_score', 'given at a seat set aside before closing; kept, and left out of what the panel claims'],
  ['source', 'phone or paper'],
  ['scored_at', 'when the server stored it, ISO 8601, UTC'],
  ['skipped', 'reason given for skipping the cup'],
  [
    'would_rather_not',
    'yes if the taster would rather not drink this cup: the only reason for skipping that speaks of liking; empty at a seat set aside before closing',
  ],
  ['comment', 'what the taster wrote about this cup, on the row of overall liking'],
] as const

const columnsOf: Readonly<Record<PanelKind, readonly (readonly [string, string])[]>> = {
  liking: scoreColumns,
  choice: choiceColumns,
  rank: rankColumns,
  difference: differenceColumns,
}

type Column = (typeof scoreColumns)[number][0]
type ScoreLine = Readonly<Record<Column, string | number>>

const safe = { header: true, escape_formulas: true, record_delimiter: 'windows' } as const

/** Scores in long form, RFC 4180. @returns null while the panel is not closed */
export async function exportScores(world: World, actor: Actor, panelId: string): Promise<string | null> {
  const panel = await findClosed(world, actor, panelId)
  if (!panel) return null
  const servings = await findClosedServings(world.db, actor.cafeId, panelId)
  const asks = designOf(panel)
  if (asks) {
    const later = await findLater(world, actor, panelId, servings)
    if (asks.kind === 'difference') return exportDifference(panel, asks, servings, later)
    return asks.kind === 'rank' ? exportRank(panel, servings, later) : exportChoice(panel, servings, later)
  }
  const lines = servings.filter(wasServed).flatMap((serving) => linesOf(panel, serving))
  return stringify(lines, { ...safe, columns: scoreColumns.map(([name]) => name) })
}

/** The column dictionary, itself a CSV. */
export async function exportColumns(world: World, actor: Actor, panelId: string): Promise<string | null> {
  const panel = await findClosed(world, actor, panelId)
  if (!panel) return null
  return stringify(
    columnsOf[findSetKind(panel.kind) ?? 'liking'].map(([column, meaning]) => ({ column, meaning })),
    safe,
  )
}

/** Whose answers are a person's later ones: as closing kept it, else as names tell it now. */
async function findLater(world: World, actor: Actor, panelId: string, servings: readonly ClosedServing[]) {
  const stored = await findClosingAnswer(world.db, actor.cafeId, panelId)
  return keptLater(stored && readClosingAnswer(stored.text)) ?? laterAnswers(inHeadline(servings))
}

async function findClosed(world: World, actor: Actor, panelId: string): Promise<PanelRecord | null> {
  const panel = await findPanel(world.db, actor.cafeId, panelId)
  return panel && (panel.stage === 'closed' || panel.stage === 'decided') ? panel : null
}

const wasServed = (serving: ClosedServing) => serving.seat.takenAt !== null || serving.scores.length > 0

function linesOf(panel: PanelRecord, serving: ClosedServing): ScoreLine[] {
  const cup = resultCups(panel).find((one) => one.trialId === serving.cup.trialId)
  const isLeftOut = serving.aside === 'before-closing'
  return panel.attributes.map((attribute) => {
    const given = serving.skippedAt ? undefined : serving.scores.find((one) => one.attributeId === attribute.id)
    const score = isLeftOut ? undefined : given
    const late = serving.late.filter((one) => one.attributeId === attribute.id).at(-1)
    return {
      panel: panel.title,
      taster: serving.seat.number,
      position: serving.position,
      code: serving.code,
      cup: cup?.letter ?? '',
      trial: cup?.trialNumber ?? '',
      trial_name: cup?.name ?? '',
      house_recipe: cup?.isHouse ? 'yes' : 'no',
      replicate: serving.cup.isDuplicate ? 2 : 1,
      attribute: attribute.name,
      asked_as: attribute.kind,
      score: score?.value ?? '',
      late_score: late?.value ?? '',
      set_apart_score: serving.apart.find((one) => one.attributeId === attribute.id)?.value ?? '',
      set_aside: serving.aside ?? 'no',
      set_aside_score: isLeftOut ? (given?.value ?? '') : '',
      source: given?.source ?? '',
      scored_at: given?.at.toISOString() ?? '',
      skipped: serving.skippedAt ? (serving.skipReason ?? 'no reason given') : '',
      would_rather_not: !isLeftOut && saysDislike(serving) ? 'yes' : '',
      comment: attribute.position === 0 ? (serving.comment ?? '') : '',
    }
  })
}

/** A panel as one JSON object: plan, key, orders, answers, decisions. Names of tasters are left out. */
export async function exportPanel(world: World, actor: Actor, panelId: string): Promise<string | null> {
  const panel = await findClosed(world, actor, panelId)
  const key = await findKey(world.db, actor.cafeId, panelId)
  if (!panel || !key) return null
  const [servings, decisions] = await Promise.all([
    findClosedServings(world.db, actor.cafeId, panelId),
    findDecisionsOfPanel(world.db, actor.cafeId, panelId),
  ])
  const cups = resultCups(panel)
  return JSON.stringify(
    {
      kind: 'sipwright-panel',
      version: 1,
      title: panel.title,
      publicTitle: panel.publicTitle,
      recipe: panel.recipe.name,
      question: panel.question,
      demo: panel.isDemo,
      stage: panel.stage,
      openedAt: panel.openedAt,
      closedAt: panel.closedAt,
      asked: panel.kind,
      plan: {
        design: planOf(panel, null).asks ?? null,
        aim: planOf(panel, null).aim,
        primary: panel.primaryKind,
        pair: [panel.primaryTrialAId, panel.primaryTrialBId].map(
          (id) => cups.find((cup) => cup.trialId === id)?.letter ?? null,
        ),
        smallestDifference: panel.smallestDifference / 10,
        notWorseMargin: panel.notWorseMargin === null ? null : panel.notWorseMargin / 10,
        cupsPerTaster: panel.cupsPerTaster,
        sampleMl: panel.sampleMl,
        seenThrough: panel.seenThrough,
        nothingSeen: panel.nothingSeen,
        attributes: panel.attributes.map((attribute) => attribute.name),
        questions: panel.attributes.filter(({ about }) => about === 'serving').map(questionOf),
      },
      cups: cups.map(({ letter, trialNumber, name, isHouse, isTwice }) => ({
        letter,
        trialNumber,
        name,
        isHouse,
        isTwice,
      })),
      orderSeed: key.orderSeed,
      jugs: key.cups.map((cup) => ({
        jug: cup.jugLetter,
        design: cup.design,
        cup: cups.find((one) => one.trialId === cup.trialId)?.letter ?? null,
      })),
      servings: servings.map((serving) => ({
        seat: serving.seat.number,
        position: serving.position,
        code: serving.code,
        cup: cups.find((cup) => cup.trialId === serving.cup.trialId)?.letter ?? null,
        replicate: serving.cup.isDuplicate ? 2 : 1,
        skipped: serving.skippedAt ? (serving.skipReason ?? '') : null,
        comment: serving.comment,
        ...(serving.set && { set: setOf(serving.set) }),
        answers: panel.attributes.map((attribute) => ({
          attribute: attribute.name,
          score: serving.aside === 'before-closing' ? null : countedScore(serving, attribute.id),
          late: serving.late.find((one) => one.attributeId === attribute.id)?.value ?? null,
          setAside: serving.aside === 'before-closing' ? countedScore(serving, attribute.id) : null,
          setApart: serving.apart.find((one) => one.attributeId === attribute.id)?.value ?? null,
        })),
      })),
      barredSeats: barredSeats(servings),
      setAsideSeats: seatsAside(servings).map(({ seat, when, why, at }) => ({ seat, when, why, at })),
      corrections: correctionsOf(servings, cups, panel.attributes).map(({ seat, letter, what, stood, stands, at }) => ({
        seat,
        cup: letter,
        what,
        stood,
        stands,
        at,
      })),
      decisions: decisions.map(({ kind, version, reason, at, trial }) => ({
        kind,
        version,
        reason,
        at,
        trial: trial?.number ?? null,
      })),
    },
    null,
    2,
  )
}

/** Positions at this seat, as they were answered; with every serving of the set again. */
function setOf({ number, answers, apart, uncounted }: NonNullable<ClosedServing['set']>) {
  const said = (one: { readonly answer: string; readonly source: string; readonly at: Date } | undefined) =>
    one ? { answer: readSetAnswer(one.answer), source: one.source, at: one.at } : null
  return {
    number,
    answer: said(answers[0]),
    setApart: said(apart[0]),
    uncounted: uncounted.map((one) => ({ why: one.why, ...said(one) })),
  }
}

function barredSeats(servings: readonly ClosedServing[]) {
  const seats = new Map(servings.map(({ seat }) => [seat.number, seat]))
  return [...seats.values()].flatMap((seat) => {
    const why = findTooMuch(seat)
    return why === null ? [] : [{ seat: seat.number, why, since: seat.barredAt }]
  })
}
