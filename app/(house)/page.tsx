import { canDo, requireMember } from '@/lib/auth/guard'
import { readHome } from '@/lib/tasks/house/read-home'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { DecisionLines } from '@/app/ui/decision-lines'
import { DiskNotice } from '@/app/ui/disk-notice'
import { Empty, Page, Section } from '@/app/ui/page-frame'
import { homeAct, NamesNotice, NeedLines, sayHome } from './home-parts'

export default async function HomePage() {
  const member = await requireMember('home')
  const reads = canDo(member, 'recipe:read')
  const home = await readHome(theWorld(), member, reads)
  const act = homeAct(home, { writes: canDo(member, 'recipe:write') })
  const fresh = reads && home.recipes === 0
  return (
    <Page title={sayHome(home, reads)} act={act && <ButtonLink href={act.href}>{act.words}</ButtonLink>}>
      <DiskNotice disk={home.disk} />
      {home.namesUnsettled && canDo(member, 'cafe') && <NamesNotice />}
      {fresh && (
        <Empty words="Start with the drink. Weigh two versions of it, pour them blind, let people score them on their phones, and decide on what they said." />
      )}
      <NeedLines home={home} zone={member.cafe.timeZone} currency={member.cafe.currency} reads={reads} />
      {home.decided.length > 0 && (
        <Section title="Decided lately">
          <DecisionLines decisions={home.decided} zone={member.cafe.timeZone} brief />
        </Section>
      )}
    </Page>
  )
}
