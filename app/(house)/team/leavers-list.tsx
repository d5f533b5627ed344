import type { Team } from '@/lib/tasks/team/run-team'
import { Button } from '@/app/ui/button'
import { Moment } from '@/app/ui/moment'
import { forgetLeaverAction } from './actions'

/** Who left, and may ask for their name to be taken out of the diary. */
export function LeaversList({ leavers, zone }: { leavers: Team['leavers']; zone: string }) {
  return (
    <ul className="divide-y divide-line">
      {leavers.map(({ userId, name, email, leftAt }) => (
        <li key={userId} className="flex flex-wrap items-center justify-between gap-x-6 gap-y-2 py-2">
          <span>
            {name}
            <span className="block text-s text-soft">
              {email}, left <Moment at={leftAt} zone={zone} day />
            </span>
          </span>
          <form action={forgetLeaverAction.bind(null, userId)}>
            <Button type="submit" look="quiet">
              Forget their name<span className="sr-only">: {name}</span>
            </Button>
          </form>
        </li>
      ))}
    </ul>
  )
}
