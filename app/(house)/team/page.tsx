import type { Metadata } from 'next'
import { requireMember } from '@/lib/auth/guard'
import { readTeam } from '@/lib/tasks/team/run-team'
import { theWorld } from '@/lib/tasks/world'
import { Page, Section, Fold } from '@/app/ui/page-frame'
import { CafePart } from './cafe-part'
import { HearingPart } from './hearing-part'
import { InvitePart } from './invite-part'
import { LeaversList } from './leavers-list'
import { NamesPart } from './names-part'
import { TeamList } from './team-list'
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
        <InvitePart invites={team.invites} />
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
      <Section title="Hearing back from home">
        <HearingPart hearsBack={team.hearsBack} />
      </Section>
      <Section title="The café">
        <CafePart cafe={owner.cafe} />
      </Section>
    </Page>
  )
}
