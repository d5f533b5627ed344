'use client'

import { useActionState } from 'react'
import { Button } from '@/app/ui/button'

type Answer = string | null
type Act = (before: Answer, form: FormData) => Promise<Answer>

export function MemberActions({
  name,
  role,
  change,
  remove,
}: {
  name: string
  role: string
  change: Act
  remove: Act
}) {
  const [changeProblem, sendChange] = useActionState(change, null)
  const [removeProblem, sendRemove] = useActionState(remove, null)
  const problem = changeProblem ?? removeProblem
  return (
    <div className="flex flex-wrap items-center gap-2">
      <form action={sendChange} className="flex items-center gap-2">
        <select
          key={role}
          name="role"
          defaultValue={role}
          aria-label={`Role of ${name}`}
          className="min-h-11 rounded border border-edge bg-raised px-2"
        >
          <option value="owner">owner</option>
          <option value="developer">developer</option>
          <option value="pourer">pourer</option>
          <option value="viewer">viewer</option>
        </select>
        <Button type="submit" look="plain">
          Change<span className="sr-only"> the role of {name}</span>
        </Button>
      </form>
      <form action={sendRemove}>
        <Button type="submit" look="quiet">
          Remove<span className="sr-only"> {name}</span>
        </Button>
      </form>
      <p role="alert" className="w-full text-s font-semibold text-stop empty:hidden">
        {problem}
      </p>
    </div>
  )
}
