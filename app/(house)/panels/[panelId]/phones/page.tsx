import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readPhoneTry } from '@/lib/tasks/plan/start-phone-try'
import { theWorld } from '@/lib/tasks/world'
import { ActButton } from '@/app/ui/act-button'
import { AddressChoice } from '@/app/ui/address-choice'
import { Page } from '@/app/ui/page-frame'
import { PhoneWait } from '@/app/ui/phone-wait'
import { ScanCode } from '@/app/ui/scan-code'
import { once, type Query } from '@/app/ui/query'
import { chooseAddressAction } from '../../actions'
import { panelTrail } from '../../panel-words'
import { phoneAddress } from '../../phone-address'
import { startTryAction } from './actions'
import { Mends } from './mends'

export const metadata: Metadata = { title: 'Try it with a phone' }

interface Doors {
  readonly params: Promise<{ panelId: string }>
  readonly searchParams: Query
}

export default async function PhoneTryPage({ params, searchParams }: Doors) {
  const member = await requireMember('panel:run')
  const [{ panelId }, { try: tryId }] = [await params, await once(searchParams)]
  const panel = await readPanel(theWorld(), member, panelId)
  if (!panel) notFound()
  const waiting = tryId ? await readPhoneTry(theWorld(), member, panelId, tryId) : null
  const found = await phoneAddress()
  const here = `/panels/${panelId}/phones`
  return (
    <Page
      trail={panelTrail(panel)}
      title="Try it with a phone"
      answer={waiting ? undefined : 'Before anybody pours: can a phone in this room reach this computer?'}
      act={
        !waiting &&
        found.address && <ActButton action={startTryAction.bind(null, panelId)} words="Show a code to scan" />
      }
    >
      <AddressChoice found={found} action={chooseAddressAction.bind(null, tryId ? `${here}?try=${tryId}` : here)} />
      {waiting && found.address && (
        <div className="flex flex-wrap items-start gap-6">
          <ScanCode
            address={`${found.address}/try/${waiting.token}`}
            words="Only says that it was reached"
            size="w-72"
          />
          <div className="grid max-w-prose grow basis-64 gap-4">
            <PhoneWait from={`${here}/reached?try=${tryId}`} reached={waiting.reachedAt !== null} />
            <Mends address={found.address} />
          </div>
        </div>
      )}
    </Page>
  )
}
