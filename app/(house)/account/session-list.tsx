import type { OwnSession } from '@/lib/tasks/team/own-sessions'
import { ActButton } from '@/app/ui/act-button'
import { Button } from '@/app/ui/button'
import { Moment } from '@/app/ui/moment'
import { endOtherSessionsAction, endSessionAction } from './actions'

/** Where somebody is signed in: what they do not know, they end. */
export function SessionList({ sessions, zone }: { sessions: readonly OwnSession[]; zone: string }) {
  return (
    <>
      <ul className="divide-y divide-line rounded border border-line bg-raised">
        {sessions.map((session) => (
          <li key={session.id} className="flex flex-wrap items-center justify-between gap-x-6 gap-y-2 px-4 py-3">
            <span>
              {session.browser}
              <span className="block text-s text-soft">
                since <Moment at={session.since} zone={zone} />
                {session.isThisOne && ' · this one'}
              </span>
            </span>
            {!session.isThisOne && (
              <form action={endSessionAction.bind(null, session.id)}>
                <Button type="submit" look="quiet">
                  Sign out<span className="sr-only"> {session.browser}</span>
                </Button>
              </form>
            )}
          </li>
        ))}
      </ul>
      {sessions.length > 1 && (
        <ActButton action={endOtherSessionsAction} words="Sign out everywhere else" look="plain" />
      )}
    </>
  )
}
