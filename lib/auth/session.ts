import 'server-only'
import type { AuthOptions } from 'next-auth'
import { getServerSession } from 'next-auth'
import { cookies } from 'next/headers'
import CredentialsProvider from 'next-auth/providers/credentials'
import { theDatabase } from '@/lib/db/engine/client'
import { findMember, type MemberRecord } from '@/lib/db/people'
import { checkSignIn } from './sign-in'

const overHttps = (process.env['PUBLIC_URL'] ?? '').startsWith('https://')

/** What the token carries: whose it is and which generation. Role and café are read from the database each time. */
interface Claims {
  readonly userId: string
  readonly sessionVersion: number
}

function claimsOf(token: Record<string, unknown>): Claims | null {
  const { userId, sessionVersion } = token
  return typeof userId === 'string' && typeof sessionVersion === 'number' ? { userId, sessionVersion } : null
}

export const authOptions: AuthOptions = {
  session: { strategy: 'jwt', maxAge: 14 * 24 * 60 * 60 },
  useSecureCookies: overHttps,
  pages: { signIn: '/sign-in', error: '/sign-in' },
  providers: [
    CredentialsProvider({
      credentials: { email: {}, password: {} },
      async authorize(typed) {
        if (!typed?.email || !typed.password) return null
        const checked = await checkSignIn(theDatabase(), new Date(), typed.email, typed.password)
        if (!checked.ok) throw new Error(checked.reason === 'wait' ? `wait-${checked.detail?.['seconds']}` : 'wrong')
        return { id: checked.value.userId, sessionVersion: checked.value.sessionVersion }
      },
    }),
  ],
  callbacks: {
    jwt({ token, user }) {
      if (user && 'sessionVersion' in user) return { userId: user.id, sessionVersion: user.sessionVersion }
      return token
    },
    session({ session, token }) {
      return { ...session, user: undefined, claims: claimsOf(token) }
    },
  },
}

/** The member behind this request's cookie, or null: signed out, removed, or signed in before a password change. */
export async function currentMember(): Promise<MemberRecord | null> {
  // A taster's phone asks with every tap and is hardly ever signed in: that costs nothing.
  if (!(await cookies()).getAll().some(({ name }) => name.includes('session-token'))) return null
  const session = await getServerSession(authOptions)
  const claims = session && 'claims' in session ? claimsOf((session.claims ?? {}) as Record<string, unknown>) : null
  if (!claims) return null
  const member = await findMember(theDatabase(), claims.userId)
  return member && member.sessionVersion === claims.sessionVersion ? member : null
}

export async function currentUserId(): Promise<string | null> {
  return (await currentMember())?.userId ?? null
}
