import { memberOr } from '@/lib/auth/guard'
import { readPhoneTry } from '@/lib/tasks/plan/start-phone-try'
import { theWorld } from '@/lib/tasks/world'

/** Has the phone come by? */
export async function GET(request: Request, { params }: { params: Promise<{ panelId: string }> }) {
  const member = await memberOr('panel:run')
  if (member instanceof Response) return member
  const { panelId } = await params
  const tryId = new URL(request.url).searchParams.get('try') ?? ''
  const found = await readPhoneTry(theWorld(), member, panelId, tryId)
  if (!found) return new Response('There is no such try.', { status: 404 })
  return Response.json({ reached: found.reachedAt !== null }, { headers: { 'cache-control': 'no-store' } })
}
