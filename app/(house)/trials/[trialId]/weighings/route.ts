import { memberOr } from '@/lib/auth/guard'
import { WeighingForm } from '@/lib/forms/ladder-form'
import { keepWeighing } from '@/lib/tasks/trial/keep-weighing'
import { theWorld } from '@/lib/tasks/world'

const mostBytes = 50_000

export async function POST(request: Request, { params }: { params: Promise<{ trialId: string }> }): Promise<Response> {
  const member = await memberOr('recipe:write')
  if (member instanceof Response) return member
  // Another site's page can post plain text with our cookie, but not with this header.
  if (request.headers.get('content-type') !== 'application/json') return new Response('JSON, please.', { status: 415 })
  const text = await request.text()
  const sent = text.length > mostBytes ? null : WeighingForm.safeParse(parsed(text))
  if (!sent?.success) return new Response('This is not a weighing.', { status: 422 })
  const kept = await keepWeighing(theWorld(), member, (await params).trialId, sent.data)
  return kept.ok ? Response.json({ key: sent.data.key }) : new Response('This trial is not there.', { status: 404 })
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
