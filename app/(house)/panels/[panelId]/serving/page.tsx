import type { Metadata } from 'next'
import { requireMember } from '@/lib/auth/guard'
import { readListHead, readServingList } from '@/lib/tasks/pour/read-pouring-list'
import { theWorld } from '@/lib/tasks/world'
import { sayMoment } from '@/app/ui/moment'
import { Page } from '@/app/ui/page-frame'
import { PrintButton } from '@/app/ui/print-button'
import { PrintSheet } from '@/app/ui/print-sheet'
import { TrayList } from '@/app/ui/tray-list'
import { once, type Query } from '@/app/ui/query'
import { heldHere } from '../held-here'
import { openServingAction, tickAction } from '../list-actions'
import { ListDoor } from '../list-door'
import { ListOver } from '../list-over'
import { panelsStep } from '../../panel-words'
import { ServingHead } from './serving-head'

export const metadata: Metadata = { title: 'Serving list' }

interface Doors {
  readonly params: Promise<{ panelId: string }>
  readonly searchParams: Query
}

export default async function ServingListPage({ params, searchParams }: Doors) {
  const member = await requireMember('panel:pour')
  const { panelId } = await params
  const { opening } = await once(searchParams)
  const head = await readListHead(theWorld(), member, panelId, 'serving', await heldHere())
  if (!head) return <ListOver member={member} panelId={panelId} list="Serving list" />
  const trays = opening ? await readServingList(theWorld(), member, panelId, opening) : null
  if (!trays) {
    return (
      <ListDoor
        trail={[panelsStep]}
        list="serving"
        head={head}
        answer={`Which jug goes under which code, tray by tray, for “${head.title}”.`}
        action={openServingAction.bind(null, panelId)}
      />
    )
  }
  const printed = sayMoment(new Date(), member.cafe.timeZone)
  return (
    <Page trail={[panelsStep]} title={`Serving list: ${head.title}`} act={<PrintButton words="Print this list" />}>
      <PrintSheet foot={`Serving list, ${head.title}, printed ${printed}`} />
      <ServingHead head={head} />
      <TrayList trays={trays} tick={tickAction.bind(null, panelId)} />
    </Page>
  )
}
