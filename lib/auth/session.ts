import 'server-only'
import { randomBytes } from 'node:crypto'
import type { AuthOptions } from 'next-auth'
import { getServerSession } from 'next-auth'
import { encode } from 'next-auth/jwt'
import { cookies } from 'next/headers'
import CredentialsProvider from 'next-auth/providers/credentials'
import { servesHttps, theEnvironment } from '@/lib/base/env'
import { theDatabase } from '@/lib/db/engine/client'
import { findSignInRecord, type MemberRecord, type SignInRecord } from '@/lib/db/people'
import { addSession, endSession, findMemberOfSession } from '@/lib/db/sessions'
import { markBrowser, readAsker, readBrowser } from './asker'
import { checkSignIn } from './sign-in'

const fourteenDaysSeconds = 14 * 24 * 60 * 60

/** What the token carries: whose it is and which session. Whether that is over, role and café are read from the database each time. */
interface Claims {
  readonly userId: string
  readonly sessionId: string
}

function claimsOf(token: Readonly<Record<string, unknown>>): Claims | null {
  const { userId, sessionId } = token
  return typeof userId === 'string' && typeof sessionId === 'string' ? { userId, sessionId } : null
}

export const authOptions: AuthOptions = {
  session: { strategy: 'jwt', maxAge: fourteenDaysSeconds },
  useSecureCookies: servesHttps(),
  pages: { signIn: '/sign-in', error: '/sign-in' },
  providers: [
    CredentialsProvider({
      credentials: { email: {}, password: {} },
      async authorize(typed) {
        if (!typed?.email || !typed.password) return null
        const checked = await checkSignIn(theDatabase(), new Date(), await readAsker(), typed.email, typed.password)
        if (checked.ok) return { id: checked.value.userId, sessionId: await beginSession(checked.value) }
        throw new Error(checked.reason === 'wait' ? `wait-${checked.detail?.['seconds']}` : checked.reason)
      },
    }),
  ],
  callbacks: {
    jwt({ token, user }) {
      if (user && 'sessionId' in user) return { userId: user.id, sessionId: user.sessionId }
      return token
    },
    session({ session, token }) {
      return { ...session, user: undefined, claims: claimsOf(token) }
    },
  },
  events: {
    // Whoever copied the cookie is signed out with its owner.
    async signOut({ token }) {
      const claims = claimsOf(token)
      if (claims) await endSession(theDatabase(), claims.userId, claims.sessionId)
    },
  },
}

async function beginSession(record: SignInRecord): Promise<string> {
  const id = randomBytes(16).toString('base64url')
  const createdAt = new Date()
  const expiresAt = new Date(createdAt.getTime() + fourteenDaysSeconds * 1000)
  await addSession(theDatabase(), { id, userId: record.userId, browser: await readBrowser(), createdAt, expiresAt })
  await markBrowser(record)
  return id
}

/** As the sign-in library calls the cookie that it reads. */
const sessionCookie = () => `${servesHttps() ? '__Secure-' : ''}next-auth.session-token`

/**
 * Signs in on this browser whoever has just chosen this address and its password here: typing both again would prove nothing.
 * For an act that made the account by a one-time key, and for nothing else.
 */
export async function signInWhoJustCame(email: string): Promise<void> {
  const secret = theEnvironment().authSecret
  const record = await findSignInRecord(theDatabase(), email)
  if (!record || !secret) return
  const token: Claims = { userId: record.userId, sessionId: await beginSession(record) }
  const value = await encode({ token: { ...token }, secret, maxAge: fourteenDaysSeconds })
  const kept = await cookies()
  kept.set(sessionCookie(), value, {
    path: '/',
    maxAge: fourteenDaysSeconds,
    httpOnly: true,
    sameSite: 'lax',
    secure: servesHttps(),
  })
}

/** The member behind this request's cookie, with the session it is; null for who is signed out, removed, or whose session was ended. */
export async function currentMember(): Promise<(MemberRecord & { readonly sessionId: string }) | null> {
  // A taster's phone asks with every tap and is hardly ever signed in: that costs nothing.
  if (!(await cookies()).getAll().some(({ name }) => name.includes('session-token'))) return null
  const session = await getServerSession(authOptions)
  const claims = session && 'claims' in session ? claimsOf((session.claims ?? {}) as Record<string, unknown>) : null
  if (!claims) return null
  const { userId, sessionId } = claims
  const member = await findMemberOfSession(theDatabase(), { id: sessionId, userId }, new Date())
  return member && { ...member, sessionId }
}

export async function currentUserId(): Promise<string | null> {
  return (await currentMember())?.userId ?? null
}
