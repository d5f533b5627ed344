import type { Metadata } from 'next'
import { requireMember } from '@/lib/auth/guard'
import { cafeMark } from '@/lib/tasks/opened-with'
import { readTeam } from '@/lib/tasks/team/run-team'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { Page, Section, Fold } from '@/app/ui/page-frame'
import { SelectField, TextField } from '@/app/ui/field'
import { allergenLists } from '@/app/ui/allergen-lists'
import { changeCafeAction } from './actions'
import { cafeAsTyped } from './cafe-as-typed'
import { InviteForm } from './invite-form'
import { OpenInvites, TeamList } from './team-list'
import { LeaversList } from './leavers-list'
import { NamesPart } from './names-part'
import { RightsTable } from './rights-table'

export const metadata: Metadata = { title: 'Team' }

export default async function TeamPage() {
  const owner = await requireMember('team')
  const team = await readTeam(theWorld(), owner)
  const many = team.members.length
  return (
    <Page title="Team" answer={many === 1 ? 'You work alone here so far.' : `${many} people work here.`}>
      <Section title="People">
        <TeamList members={team.members} me={owner.userId} />
      </Section>
      <Section title="Invite somebody">
        <InviteForm />
        <OpenInvites invites={team.invites} />
      </Section>
      <Fold words="What each role may do">
        <RightsTable />
      </Fold>
      {team.leavers.length > 0 && (
        <Fold words="Who left">
          <LeaversList leavers={team.leavers} zone={owner.cafe.timeZone} />
        </Fold>
      )}
      <Section title="Names of tasters">
        <NamesPart nameDays={team.nameDays} />
      </Section>
      <Section title="The café">
        <ActForm
          id="cafe"
          action={changeCafeAction}
          opened={cafeMark(owner.cafe)}
          defaults={cafeAsTyped(owner.cafe)}
          submit="Save"
          className="max-w-md"
        >
          <TextField name="cafeName" label="Name of the café" required />
          <TextField
            name="currency"
            label="Currency"
            required
            help="Three letters: EUR, USD, PHP. Amounts already entered keep their figures: 3.50 stays 3.50, nothing is exchanged."
          />
          <SelectField name="allergenList" label="Which law’s list of allergens?" choices={allergenLists} />
          <TextField name="timeZone" label="Time zone" required help="A name like Europe/Lisbon or Asia/Manila." />
        </ActForm>
      </Section>
    </Page>
  )
}
