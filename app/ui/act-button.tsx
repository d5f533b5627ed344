'use client'

import { useFormStatus } from 'react-dom'
import { Button, type ButtonLook } from './button'

/** One act without a question, that works without script as well. */
export function ActButton({
  action,
  words,
  look = 'main',
}: {
  readonly action: (form: FormData) => Promise<void>
  readonly words: string
  readonly look?: ButtonLook
}) {
  return (
    <form action={action}>
      <Press words={words} look={look} />
    </form>
  )
}

function Press({ words, look }: { words: string; look: ButtonLook }) {
  const { pending } = useFormStatus()
  return (
    <Button type="submit" look={look} aria-disabled={pending}>
      {pending ? 'One moment…' : words}
    </Button>
  )
}
