import { memberOr } from '@/lib/auth/guard'
import { keepBarWeighing } from '@/lib/tasks/bar/keep-bar-weighing'
import { theWorld } from '@/lib/tasks/world'
import { readWeighing } from '@/app/(house)/trials/read-weighing'

/** What the scale showed when somebody behind the bar built the house recipe. */
export async function POST(request: Request, { params }: { params: Promise<{ recipeId: string }> }): Promise<Response> {
  const member = await memberOr('bar:make')
  if (member instanceof Response) return member
  const sent = await readWeighing(request)
  if (sent instanceof Response) return sent
  const kept = await keepBarWeighing(theWorld(), member, (await params).recipeId, sent)
  return kept.ok
    ? Response.json({ key: sent.key, ...kept.value })
    : new Response('There is no house recipe.', { status: 404 })
}
