import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { findVisitor, openDoor } from '@/lib/auth/guard'
import { Door } from '@/app/ui/door'
import { once, type Query } from '@/app/ui/query'
import { SignInForm } from './sign-in-form'

export const metadata: Metadata = { title: 'Sign in' }

export default async function SignInPage({ searchParams }: { searchParams: Query }) {
  openDoor('whoever wants to come in stands here')
  if (await findVisitor()) redirect('/')
  const { after } = await once(searchParams)
  return (
    <Door title="Sign in" words={sayAfter.get(after ?? '')}>
      <SignInForm />
      <p className="text-s text-soft">
        Forgotten? Whoever runs this computer can make a one-time link with{' '}
        <code>npm run reset-password -- your@address</code>.
      </p>
    </Door>
  )
}

const sayAfter = new Map([
  ['joined', 'Welcome. Sign in with the address and password you just chose.'],
  ['reset', 'Your password is changed, and every earlier session has ended. Sign in again.'],
  ['out', 'You are signed out.'],
])
