import { Button } from '@/app/ui/button'
import { changeRoleAction, removeMemberAction, withdrawInviteAction } from './actions'
import { MemberActions } from './member-actions'

interface TeamMember {
  readonly id: string
  readonly name: string
  readonly email: string
  readonly role: string
}

export function TeamList({ members, me }: { members: readonly TeamMember[]; me: string }) {
  return (
    <ul className="divide-y divide-line rounded border border-line bg-raised">
      {members.map((member) => (
        <li key={member.id} className="flex flex-wrap items-center justify-between gap-x-6 gap-y-2 px-4 py-3">
          <div>
            <p className="font-semibold">
              {member.name}
              {member.id === me && <span className="font-normal text-soft"> (you)</span>}
            </p>
            <p className="text-s text-soft">
              {member.email} · {member.role}
            </p>
          </div>
          {member.id !== me && (
            <MemberActions
              name={member.name}
              role={member.role}
              change={changeRoleAction.bind(null, member.id)}
              remove={removeMemberAction.bind(null, member.id)}
            />
          )}
        </li>
      ))}
    </ul>
  )
}

export interface Invite {
  readonly id: string
  readonly role: string | null
  readonly email: string | null
}

export function OpenInvites({ invites }: { invites: readonly Invite[] }) {
  if (invites.length === 0) return null
  return (
    <ul aria-label="Open invitations" className="divide-y divide-line">
      {invites.map((invite) => (
        <li key={invite.id} className="flex flex-wrap items-center justify-between gap-4 py-2">
          <span>
            Open invitation as {invite.role}
            {invite.email && ` for ${invite.email}`}
          </span>
          <form action={withdrawInviteAction.bind(null, invite.id)}>
            <Button type="submit" look="quiet">
              Withdraw
            </Button>
          </form>
        </li>
      ))}
    </ul>
  )
}
