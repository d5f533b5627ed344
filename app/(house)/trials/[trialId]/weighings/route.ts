import { memberOr } from '@/lib/auth/guard'
import { keepWeighing } from '@/lib/tasks/trial/keep-weighing'
import { theWorld } from '@/lib/tasks/world'
import { readWeighing } from '../../read-weighing'

export async function POST(request: Request, { params }: { params: Promise<{ trialId: string }> }): Promise<Response> {
  const member = await memberOr('recipe:write')
  if (member instanceof Response) return member
  const sent = await readWeighing(request)
  if (sent instanceof Response) return sent
  const kept = await keepWeighing(theWorld(), member, (await params).trialId, sent)
  return kept.ok
    ? Response.json({ key: sent.key, ...kept.value })
    : new Response('This trial is not there.', { status: 404 })
}
