import type { Metadata } from 'next'
import { openDoor } from '@/lib/auth/guard'
import { canReset } from '@/lib/tasks/team/reset-password'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { Door } from '@/app/ui/door'
import { TextField } from '@/app/ui/field'
import { resetAction } from './actions'

export const metadata: Metadata = { title: 'New password' }
export const dynamic = 'force-dynamic'

export default async function ResetPage({ params }: { params: Promise<{ token: string }> }) {
  openDoor('the reset link is the key')
  const { token } = await params
  if (!(await canReset(theWorld(), token))) {
    return (
      <Door title="This link is not open" words="It was used already, or is older than a day. Ask for a new one." />
    )
  }
  return (
    <Door title="Choose a new password" words="Every session that is open with the old one ends.">
      <ActForm id="reset" action={resetAction.bind(null, token)} submit="Change the password">
        <TextField
          name="password"
          label="New password"
          type="password"
          autoComplete="new-password"
          required
          help="At least 12 characters; a few unrelated words do well."
        />
      </ActForm>
    </Door>
  )
}
