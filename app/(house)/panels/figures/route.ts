import { memberOr } from '@/lib/auth/guard'
import { PlanFiguresForm } from '@/lib/forms/plan-figures-form'
import { reportFault } from '@/lib/tasks/house/report-fault'
import { readPlanFigures } from '@/lib/tasks/plan/read-plan-figures'
import { rehearsePlan } from '@/lib/tasks/plan/rehearse-plan'
import { theWorld } from '@/lib/tasks/world'
import { readChoiceFigures } from '@/lib/tasks/plan/choice-figures'
import { readDifferenceFigures } from '@/lib/tasks/plan/difference-figures'
import { sayDifferenceFigures, sayDifferenceRehearsal } from '../say-difference-figures'
import { sayChoiceFigures, sayChoiceRehearsal } from '../say-choice-figures'
import { readRankFigures } from '@/lib/tasks/plan/rank-figures'
import { sayRankFigures, sayRankRehearsal } from '../say-rank-figures'
import { sayFigures, sayRehearsal } from '../say-figures'

/** What a plan comes to while it is typed, and what becomes of it when it is rehearsed. */
export async function GET(request: Request): Promise<Response> {
  const member = await memberOr('panel:run')
  if (member instanceof Response) return member
  const query = new URL(request.url).searchParams
  const typed = PlanFiguresForm.safeParse(Object.fromEntries(query))
  if (!typed.success) return Response.json({ problem: 'This plan cannot be read.' }, { status: 400 })
  if (typed.data.asks === 'rank') {
    const figures = readRankFigures(typed.data)
    const said = query.get('rehearse') === '1' ? sayRankRehearsal(figures) : sayRankFigures(figures, typed.data)
    return Response.json(said, { headers: { 'Cache-Control': 'no-store' } })
  }
  if (typed.data.asks === 'choice') {
    const figures = readChoiceFigures(typed.data)
    const said = query.get('rehearse') === '1' ? sayChoiceRehearsal(figures) : sayChoiceFigures(figures, typed.data)
    return Response.json(said, { headers: { 'Cache-Control': 'no-store' } })
  }
  if (typed.data.asks === 'difference') {
    const figures = readDifferenceFigures(typed.data)
    const rehearse = query.get('rehearse') === '1'
    const said = rehearse ? sayDifferenceRehearsal(figures) : sayDifferenceFigures(figures, typed.data)
    return Response.json(said, { headers: { 'Cache-Control': 'no-store' } })
  }
  const figures = await readPlanFigures(theWorld(), member, typed.data)
  const answer =
    query.get('rehearse') === '1'
      ? sayRehearsal(await rehearsePlan(theWorld(), member, typed.data, reportFault), typed.data, figures)
      : sayFigures(figures, typed.data)
  return Response.json(answer, { headers: { 'Cache-Control': 'no-store' } })
}
