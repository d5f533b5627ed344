import { notFound } from 'next/navigation'
import { canDo, type Member } from '@/lib/auth/guard'
import { readListOver } from '@/lib/tasks/pour/read-pouring-list'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { Page } from '@/app/ui/page-frame'
import { panelsStep } from '../panel-words'

const say = {
  draft: 'The panel is not open yet: the list is made when it opens.',
  'called-off': 'The panel was called off. Nothing is poured any more.',
  closed:
    'The panel is closed. Nothing is poured any more; which cup stood where, and in which order, is in the files of its result.',
} as const

/** In place of a list of a panel that is not open. */
export async function ListOver({ member, panelId, list }: { member: Member; panelId: string; list: string }) {
  const over = await readListOver(theWorld(), member, panelId)
  if (!over) notFound()
  return (
    <Page trail={[panelsStep]} title={`${list}: ${over.title}`} answer={say[over.became]}>
      {over.became === 'closed' && canDo(member, 'panel:read') && (
        <p>
          <ButtonLink href={`/panels/${panelId}/result`}>Open the result</ButtonLink>
        </p>
      )}
    </Page>
  )
}
