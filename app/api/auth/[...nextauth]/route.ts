import NextAuth from 'next-auth'
import { openDoor } from '@/lib/auth/guard'
import { authOptions } from '@/lib/auth/session'

const answer = NextAuth(authOptions)

/** What the sign-in form and the sign-out button ask for. The library has more, with pages and errors of its own look. */
const asked = new Set(['GET providers', 'GET csrf', 'POST callback/credentials', 'POST signout'])

type Context = { readonly params: Promise<{ readonly nextauth: readonly string[] }> }

async function answerAsked(request: Request, context: Context): Promise<Response> {
  openDoor('whoever signs in is not signed in yet')
  const { nextauth } = await context.params
  if (!asked.has(`${request.method} ${nextauth.join('/')}`)) return say(404, 'There is nothing here.')
  // Its fields are texts then: in another shape the library would hand on objects, and tell strangers what came of it.
  const isForm = (request.headers.get('content-type') ?? '').startsWith('application/x-www-form-urlencoded')
  if (request.method === 'POST' && !isForm) return say(415, 'Signing in and out takes a form.')
  return (await answer(request, context)) as Response
}

function say(status: number, words: string): Response {
  return new Response(words, { status, headers: { 'cache-control': 'no-store' } })
}

export { answerAsked as GET, answerAsked as POST }
