import type { PanelReading } from '@/lib/tasks/plan/panel-reading'
import type { Progress } from '@/lib/tasks/pour/read-progress'
import { sayMoment } from '@/app/ui/moment'
import { counted, listed, sayProgress } from '../panel-words'

/** The sentence a reader of this panel came for. */
export function sayStage(panel: PanelReading, progress: Progress | null, zone: string): string {
  if (panel.stage === 'draft') return sayDraft(panel)
  if (panel.stage === 'open') return progress ? sayProgress(progress) : 'Open.'
  if (panel.stage === 'called-off') {
    const day = panel.calledOffAt ? ` on ${sayMoment(panel.calledOffAt, zone)}` : ''
    return `Called off by ${panel.calledOffBy ?? 'somebody'}${day}. Nobody had tasted; there is no result.`
  }
  const finished = progress?.seats.filter((seat) => seat.state === 'finished').length ?? 0
  const when = panel.closedAt ? ` on ${sayMoment(panel.closedAt, zone)}` : ''
  const head = panel.stage === 'decided' ? 'Decided: ' : ''
  const seats = counted(progress?.seats.length ?? 0, 'seat')
  return `${head}${finished} of ${seats} had finished when ${panel.closedBy ?? 'somebody'} closed it${when}.`
}

function sayDraft(panel: PanelReading): string {
  const missing = [
    panel.problems.some((problem) => problem !== 'seen-not-said') || panel.looks.length > 0
      ? 'the plan needs a change'
      : '',
    panel.problems.includes('seen-not-said') ? 'nobody has said yet whether a cup can be told by its look' : '',
    panel.cups.some((cup) => cup.unread.length > 0) ? 'a label has not been read for allergens' : '',
    panel.cups.some((cup) => cup.isEmpty) ? 'a trial has no ingredients' : '',
    panel.cups.some((cup) => cup.isArchived) ? 'a trial was archived' : '',
  ].filter((part) => part !== '')
  if (missing.length > 0) return `Not ready to open: ${listed(missing)}.`
  return `Ready to open: ${counted(panel.cups.length, 'cup')} for ${counted(panel.plan.seatCount, 'seat')}.`
}
