'use client'

import { signIn } from 'next-auth/react'
import { useRouter } from 'next/navigation'
import { useRef, useState } from 'react'
import { Button } from '@/app/ui/button'
import { Notice } from '@/app/ui/notice'

const box = 'min-h-11 w-full rounded border border-edge bg-raised px-3 py-2 text-ink'

/** The one form that talks to the sign-in library instead of an action: it sets the session cookie. */
export function SignInForm() {
  const [problem, setProblem] = useState<string | null>(null)
  const [busy, setBusy] = useState(false)
  const router = useRouter()
  const problemBox = useRef<HTMLDivElement>(null)

  async function send(form: FormData) {
    setBusy(true)
    const answer = await signIn('credentials', {
      redirect: false,
      email: String(form.get('email')),
      password: String(form.get('password')),
    }).catch(() => null)
    if (answer?.ok && !answer.error) {
      router.replace('/')
      router.refresh()
      return
    }
    setBusy(false)
    setProblem(wordsFor(answer?.error))
    problemBox.current?.focus()
  }

  return (
    <form
      className="grid gap-5"
      onSubmit={(event) => {
        event.preventDefault()
        void send(new FormData(event.currentTarget))
      }}
    >
      <div ref={problemBox} tabIndex={-1} role="alert" className="outline-none empty:hidden">
        {problem && (
          <Notice look="stop" word="Not signed in">
            {problem}
          </Notice>
        )}
      </div>
      <div className="grid gap-1">
        <label htmlFor="email" className="font-semibold">
          Email
        </label>
        <input id="email" name="email" type="email" autoComplete="username" required className={box} />
      </div>
      <div className="grid gap-1">
        <label htmlFor="password" className="font-semibold">
          Password
        </label>
        <input id="password" name="password" type="password" autoComplete="current-password" required className={box} />
      </div>
      <Button type="submit" aria-disabled={busy}>
        {busy ? 'One moment…' : 'Sign in'}
      </Button>
    </form>
  )
}

function wordsFor(error: string | null | undefined): string {
  const wait = /^wait-(\d+)$/.exec(error ?? '')
  if (wait) return `Too many tries. Please wait ${wait[1]} seconds, then try again.`
  if (error === 'busy') return 'Several people are signing in just now. Please try again in a moment.'
  if (error === 'wrong') return 'This address and password do not go together.'
  return 'The café’s computer did not answer. Is it on, and are you on its network?'
}
