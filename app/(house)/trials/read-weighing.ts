import { WeighingForm, type WeighingSent } from '@/lib/forms/ladder-form'

const mostBytes = 50_000

/** A weighing as a page sends it, or the answer to what is none. */
export async function readWeighing(request: Request): Promise<WeighingSent | Response> {
  // Another site's page can post plain text with our cookie, but not with this header.
  if (request.headers.get('content-type') !== 'application/json') return new Response('JSON, please.', { status: 415 })
  const text = await request.text()
  const sent = text.length > mostBytes ? null : WeighingForm.safeParse(parsed(text))
  if (!sent?.success) return new Response('This is not a weighing.', { status: 422 })
  return sent.data
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
