import type { Metadata } from 'next'
import { openDoor } from '@/lib/auth/guard'
import { readInvitation } from '@/lib/tasks/team/run-team'
import { theWorld } from '@/lib/tasks/world'
import { AccountFields } from '@/app/ui/account-fields'
import { ActForm } from '@/app/ui/act-form'
import { Door } from '@/app/ui/door'
import { acceptInviteAction } from './actions'

export const metadata: Metadata = { title: 'Join the team' }
export const dynamic = 'force-dynamic'

export default async function InvitePage({ params }: { params: Promise<{ token: string }> }) {
  openDoor('the invitation is the key')
  const { token } = await params
  const invitation = await readInvitation(theWorld(), token)
  if (!invitation) {
    return (
      <Door
        title="This invitation is not open"
        words="It was used already, withdrawn, or is older than a week. Ask for a new one."
      />
    )
  }
  return (
    <Door title={`Join ${invitation.cafeName}`} words={`You are invited as ${invitation.role}.`}>
      <ActForm id="join-team" action={acceptInviteAction.bind(null, token)} keep="join-team" submit="Join">
        <AccountFields />
      </ActForm>
    </Door>
  )
}
