import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readCard } from '@/lib/tasks/trial/read-card'
import { theWorld } from '@/lib/tasks/world'
import { phoneAddress } from '@/app/(house)/panels/phone-address'
import { sayDay } from '@/app/ui/moment'
import { Page } from '@/app/ui/page-frame'
import { cardSizes, isCardSize } from '@/app/ui/page-rule'
import { PrintButton } from '@/app/ui/print-button'
import { PrintSheet } from '@/app/ui/print-sheet'
import { once, type Query } from '@/app/ui/query'
import { openToWhoServes } from '../../../open-to-who-serves'
import { OnScreen } from './on-screen'
import { CardOrWhyNot } from './card-or-why-not'
import { SizeLinks } from './size-links'

export const metadata: Metadata = { title: 'Card' }

interface Props {
  params: Promise<{ trialId: string }>
  searchParams: Query
}

export default async function CardPage({ params, searchParams }: Props) {
  const member = await requireMember('recipe:read')
  const { trialId } = await params
  await openToWhoServes(member, { trialId })
  const { size: asked = 'a4' } = await once(searchParams)
  const size = isCardSize(asked) ? asked : 'a4'
  const card = await readCard(theWorld(), member, trialId)
  if (!card) notFound()
  const { address } = await phoneAddress()
  const zone = member.cafe.timeZone
  return (
    <Page
      trail={[{ href: `/trials/${trialId}`, words: `Trial ${card.sheet.trial.number}` }]}
      title={<span className="print:hidden">Card, {cardSizes[size].words}</span>}
      act={
        card.unread.length === 0 && (
          <>
            <PrintButton words="Print the card" />
            <SizeLinks here={`/trials/${trialId}/card`} size={size} />
          </>
        )
      }
    >
      <PrintSheet card={size} />
      <OnScreen sheet={card.sheet} zone={zone} />
      <CardOrWhyNot
        card={card}
        size={size}
        link={address && `${address}/trials/${trialId}`}
        printed={sayDay(theWorld().now(), zone)}
        cafe={member.cafe}
        mayRead
      />
    </Page>
  )
}
