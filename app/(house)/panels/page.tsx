import type { Metadata } from 'next'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readPanels } from '@/lib/tasks/plan/read-panels'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { Empty, Page } from '@/app/ui/page-frame'
import { PanelLines } from './panel-lines'
import { sayPanels } from './say-panels'

export const metadata: Metadata = { title: 'Panels' }

/** Everybody has a reason to come here; who may only pour finds the open panels and their lists. */
export default async function PanelsPage() {
  const member = await requireMember('home')
  const reads = canDo(member, 'panel:read')
  const panels = await readPanels(theWorld(), member, !reads)
  const plan = canDo(member, 'panel:run') && <ButtonLink href="/panels/new">Plan a panel</ButtonLink>
  if (panels.length === 0) {
    return (
      <Page title="Panels">
        <Empty
          words={
            reads
              ? 'No panel yet. A panel pours trials of one recipe blind, and says which is liked.'
              : 'No panel is open. When one is, its lists are here.'
          }
          act={plan}
        />
      </Page>
    )
  }
  return (
    <Page title="Panels" answer={sayPanels(panels, reads)} act={plan}>
      <PanelLines
        panels={panels}
        zone={member.cafe.timeZone}
        may={{ read: reads, pour: canDo(member, 'panel:pour'), watch: canDo(member, 'panel:progress') }}
      />
    </Page>
  )
}
