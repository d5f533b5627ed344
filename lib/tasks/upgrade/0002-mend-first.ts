import 'server-only'
import { clockIn } from '@/lib/base/zone-time'
import type { CodeStep, StepDatabase } from '@/lib/db/engine/migrate'
import { answerPanel } from './first-rule/answer-panel'
import { writeFirstClosingAnswer } from './first-rule/closing-text'
import type { AnsweredPanel, AnsweredServing } from './first-rule/panel-answers'

/**
 * What the SQL of 0002-mend-first cannot fill: the day each price holds from, and what panels that were closed before were told.
 *
 * It speaks SQL of that schema, and is read with it for ever: a later migration never changes it.
 */
export const mendFirst: CodeStep = (db, now) => {
  fillPriceDays(db)
  keepClosingAnswers(db, now)
}

/**
 * The first version kept a day that was typed as midnight UTC of that day; where the day was left empty it kept the moment,
 * which fell on a day of the café's own calendar.
 */
function fillPriceDays(db: StepDatabase): void {
  const prices = db.all<{ id: string; since: string; zone: string }>(
    `SELECT price.id, price.since, cafe.timeZone AS zone
     FROM IngredientPrice price JOIN Cafe cafe ON cafe.id = price.cafeId WHERE price.day = ''`,
  )
  for (const { id, since, zone } of prices)
    db.run('UPDATE IngredientPrice SET day = ? WHERE id = ?', dayOf(new Date(since), zone), id)
}

function dayOf(since: Date, zone: string): string {
  const inUtc = since.toISOString()
  if (inUtc.endsWith('T00:00:00.000Z')) return inUtc.slice(0, 10)
  try {
    return clockIn(since, zone).slice(0, 10)
  } catch (error) {
    if (error instanceof RangeError) return inUtc.slice(0, 10) // a zone that this system does not know
    throw error
  }
}

/** What each panel that is over would say on its result page. A panel that cannot be computed keeps why, and stops nothing. */
function keepClosingAnswers(db: StepDatabase, now: Date): void {
  const panels = db.all<PanelRow>(
    `SELECT id, primaryKind, primaryTrialAId, primaryTrialBId, smallestDifference, notWorseMargin
     FROM Panel WHERE stage IN ('closed', 'decided') AND closingAnswer IS NULL`,
  )
  for (const panel of panels) {
    const text = writeFirstClosingAnswer(() => answerPanel(panelOf(db, panel), servingsOf(db, panel.id)))
    db.run(
      `UPDATE Panel SET closingAnswer = ?, closingAnswerAt = ?, closingAnswerHow = 'upgrade' WHERE id = ?`,
      text,
      now.toISOString().replace('Z', '+00:00'), // as Prisma writes a moment
      panel.id,
    )
  }
}

type PanelRow = Omit<AnsweredPanel, 'attributes' | 'cups'> & { readonly id: string }

function panelOf(db: StepDatabase, panel: PanelRow): AnsweredPanel {
  const cups = db.all<{ trialId: string; isHouse: number; isDuplicate: number; name: string; number: number }>(
    `SELECT cup.trialId, cup.isHouse, cup.isDuplicate, trial.name, trial.number
     FROM Cup cup JOIN Trial trial ON trial.id = cup.trialId WHERE cup.panelId = ? ORDER BY cup.place`,
    panel.id,
  )
  return {
    ...panel,
    attributes: db.all<{ id: string; name: string }>(
      'SELECT id, name FROM PanelAttribute WHERE panelId = ? ORDER BY position',
      panel.id,
    ),
    cups: cups.map(({ trialId, isHouse, isDuplicate, name, number }) => ({
      trialId,
      isHouse: isHouse === 1,
      isDuplicate: isDuplicate === 1,
      trial: { name, number },
    })),
  }
}

function servingsOf(db: StepDatabase, panelId: string): AnsweredServing[] {
  const scores = db.all<{ servingId: string; attributeId: string; value: number }>(
    `SELECT score.servingId, score.attributeId, score.value
     FROM Score score JOIN Serving serving ON serving.id = score.servingId WHERE serving.panelId = ?`,
    panelId,
  )
  const scoresOf = new Map<string, { attributeId: string; value: number }[]>()
  for (const { servingId, ...score } of scores) scoresOf.set(servingId, [...(scoresOf.get(servingId) ?? []), score])
  const servings = db.all<{
    id: string
    position: number
    skippedAt: string | null
    trialId: string
    isDuplicate: number
    number: number
    takenAt: string | null
  }>(
    `SELECT serving.id, serving.position, serving.skippedAt, cup.trialId, cup.isDuplicate, seat.number, seat.takenAt
     FROM Serving serving JOIN Cup cup ON cup.id = serving.cupId JOIN Seat seat ON seat.id = serving.seatId
     WHERE serving.panelId = ? ORDER BY seat.number, serving.position`,
    panelId,
  )
  return servings.map(({ id, position, skippedAt, trialId, isDuplicate, number, takenAt }) => ({
    position,
    skippedAt,
    cup: { trialId, isDuplicate: isDuplicate === 1 },
    seat: { number, takenAt },
    scores: scoresOf.get(id) ?? [],
  }))
}
