import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readSign } from '@/lib/tasks/pour/read-sign'
import { theWorld } from '@/lib/tasks/world'
import { AddressChoice } from '@/app/ui/address-choice'
import { sayMoment } from '@/app/ui/moment'
import { Page } from '@/app/ui/page-frame'
import { PrintButton } from '@/app/ui/print-button'
import { PrintSheet } from '@/app/ui/print-sheet'
import { chooseAddressAction } from '../../actions'
import { panelTrail } from '../../panel-words'
import { phoneAddress } from '../../phone-address'
import { TastingSign } from './tasting-sign'

export const metadata: Metadata = { title: 'Sign' }

export default async function SignPage({ params }: { params: Promise<{ panelId: string }> }) {
  const member = await requireMember('panel:run')
  const { panelId } = await params
  const sign = await readSign(theWorld(), member, panelId)
  if (!sign) notFound()
  const found = await phoneAddress()
  const printed = sayMoment(theWorld().now(), member.cafe.timeZone)
  return (
    <Page
      trail={panelTrail({ id: panelId, title: sign.title })}
      title={<span className="print:hidden">Sign for the tasting</span>}
      answer={<span className="print:hidden">One page, to stand where people come in.</span>}
      act={<PrintButton words="Print the sign" />}
    >
      <PrintSheet foot={`${sign.publicTitle}, printed ${printed}`} />
      <div className="screen-only">
        <AddressChoice found={found} action={chooseAddressAction.bind(null, `/panels/${panelId}/sign`)} />
      </div>
      <TastingSign sign={sign} address={found.address ? `${found.address}/join/${sign.joinToken}` : null} />
    </Page>
  )
}
