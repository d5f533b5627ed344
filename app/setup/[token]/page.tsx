import type { Metadata } from 'next'
import { openDoor } from '@/lib/auth/guard'
import { canSetUp } from '@/lib/tasks/house/set-up-house'
import { theWorld } from '@/lib/tasks/world'
import { Door } from '@/app/ui/door'
import { SetUpForm } from './set-up-form'

export const metadata: Metadata = { title: 'Set up the house' }
export const dynamic = 'force-dynamic'

export default async function SetUpPage({ params }: { params: Promise<{ token: string }> }) {
  openDoor('the set-up link is the key')
  const { token } = await params
  if (!(await canSetUp(theWorld(), token))) {
    return (
      <Door
        title="This set-up link is not open"
        words="It was used already, or a newer one was made. The start command prints the present one."
      />
    )
  }
  return (
    <Door title="Set up the house" words="You become its owner. Everybody else joins by your invitation.">
      <SetUpForm token={token} />
    </Door>
  )
}
