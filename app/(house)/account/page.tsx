import type { Metadata } from 'next'
import { requireMember } from '@/lib/auth/guard'
import { readOwnSessions } from '@/lib/tasks/team/own-sessions'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { TextField } from '@/app/ui/field'
import { Page, Section } from '@/app/ui/page-frame'
import { changePasswordAction } from './actions'
import { SessionList } from './session-list'
import { SignOutButton } from './sign-out-button'

export const metadata: Metadata = { title: 'Your account' }

export default async function AccountPage() {
  const member = await requireMember('home')
  const sessions = await readOwnSessions(theWorld(), member)
  return (
    <Page
      title={member.name}
      answer={`${member.role} of ${member.cafe.name}, signed in as ${member.email}.`}
      act={<SignOutButton />}
    >
      <Section title="Where you are signed in">
        <SessionList sessions={sessions} zone={member.cafe.timeZone} />
      </Section>
      <Section title="Change your password">
        <ActForm
          id="password"
          action={changePasswordAction}
          submit="Change the password"
          submitLook="plain"
          className="max-w-md"
        >
          <TextField
            name="currentPassword"
            label="Present password"
            type="password"
            autoComplete="current-password"
            required
          />
          <TextField
            name="password"
            label="New password"
            type="password"
            autoComplete="new-password"
            required
            help="At least 12 characters; a few unrelated words do well. Every session of yours ends, this one too."
          />
        </ActForm>
      </Section>
    </Page>
  )
}
