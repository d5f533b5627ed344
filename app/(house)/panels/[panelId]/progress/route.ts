import { memberOr } from '@/lib/auth/guard'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { theWorld } from '@/lib/tasks/world'

/** How far each seat has come, for the page that watches. Never a score, a code or an order. */
export async function GET(_request: Request, { params }: { params: Promise<{ panelId: string }> }) {
  const member = await memberOr('panel:progress')
  if (member instanceof Response) return member
  const { panelId } = await params
  const progress = await readProgress(theWorld(), member, panelId)
  if (!progress) return new Response('There is no such panel, or it is not open yet.', { status: 404 })
  return Response.json(progress, { headers: { 'cache-control': 'no-store' } })
}
