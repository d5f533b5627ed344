import { memberOr } from '@/lib/auth/guard'
import { PlanFiguresForm } from '@/lib/forms/plan-figures-form'
import { readPlanFigures, rehearsePlan } from '@/lib/tasks/plan/read-plan-figures'
import { theWorld } from '@/lib/tasks/world'
import { sayFigures, sayRehearsal } from '../say-figures'

/** What a plan comes to while it is typed, and what becomes of it when it is rehearsed. */
export async function GET(request: Request): Promise<Response> {
  const member = await memberOr('panel:run')
  if (member instanceof Response) return member
  const query = new URL(request.url).searchParams
  const typed = PlanFiguresForm.safeParse(Object.fromEntries(query))
  if (!typed.success) return Response.json({ problem: 'This plan cannot be read.' }, { status: 400 })
  const answer =
    query.get('rehearse') === '1'
      ? sayRehearsal(await rehearsePlan(theWorld(), member, typed.data), typed.data)
      : sayFigures(await readPlanFigures(theWorld(), member, typed.data), typed.data)
  return Response.json(answer, { headers: { 'Cache-Control': 'no-store' } })
}
