import NextAuth from 'next-auth'
import { authOptions } from '@/lib/auth/session'

const answer = NextAuth(authOptions)

export { answer as GET, answer as POST }
