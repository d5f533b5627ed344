import type { Metadata } from 'next'
import { requireMember } from '@/lib/auth/guard'
import { readJugFills } from '@/lib/tasks/pour/read-jug-fills'
import { readListHead } from '@/lib/tasks/pour/read-pouring-list'
import { theWorld } from '@/lib/tasks/world'
import { sayMoment } from '@/app/ui/moment'
import { Page } from '@/app/ui/page-frame'
import { PrintButton } from '@/app/ui/print-button'
import { PrintSheet } from '@/app/ui/print-sheet'
import { once, type Query } from '@/app/ui/query'
import { heldHere } from '../held-here'
import { openFillingAction } from '../list-actions'
import { ListDoor } from '../list-door'
import { ListOver } from '../list-over'
import { panelsStep } from '../../panel-words'
import { JugBatches, JugCautions, WarmthFields } from './jug-parts'
import { Jugs } from './jugs'

export const metadata: Metadata = { title: 'Filling list' }

interface Doors {
  readonly params: Promise<{ panelId: string }>
  readonly searchParams: Query
}

export default async function FillingListPage({ params, searchParams }: Doors) {
  const member = await requireMember('panel:pour')
  const { panelId } = await params
  const query = await once(searchParams)
  const { opening } = query
  const head = await readListHead(theWorld(), member, panelId, 'filling', await heldHere())
  if (!head) return <ListOver member={member} panelId={panelId} list="Filling list" />
  const sheet = opening ? await readJugFills(theWorld(), member, panelId, opening, head.mlPerJug, query) : null
  if (!opening || !sheet) {
    return (
      <ListDoor
        trail={[panelsStep]}
        list="filling"
        head={head}
        answer={`Which trial goes into which jug, for “${head.title}”.`}
        action={openFillingAction.bind(null, panelId)}
      />
    )
  }
  const printed = sayMoment(new Date(), member.cafe.timeZone)
  return (
    <Page trail={[panelsStep]} title={`Filling list: ${head.title}`} act={<PrintButton words="Print this list" />}>
      <PrintSheet foot={`Filling list, ${head.title}, printed ${printed}`} />
      <JugCautions sheet={sheet} zone={member.cafe.timeZone} />
      <WarmthFields warmth={sheet.warmth} opening={opening} />
      <Jugs jugs={sheet.jugs} head={head} />
      <JugBatches batches={sheet.batches} />
    </Page>
  )
}
