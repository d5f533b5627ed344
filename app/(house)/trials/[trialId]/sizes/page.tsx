import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readSizesForm, typedShares } from '@/lib/forms/sizes-form'
import { readSizes } from '@/lib/tasks/trial/read-sizes'
import { theWorld } from '@/lib/tasks/world'
import { sayDay } from '@/app/ui/moment'
import { Page } from '@/app/ui/page-frame'
import { PrintButton } from '@/app/ui/print-button'
import { PrintSheet } from '@/app/ui/print-sheet'
import { once, type Query } from '@/app/ui/query'
import { keepSharesAction } from './actions'
import { openToWhoServes } from '../../../open-to-who-serves'
import { ShareFields } from './share-fields'
import { SizePrice } from './size-price'
import { SheetDoses, SizeParts } from './size-parts'

export const metadata: Metadata = { title: 'Sizes' }

interface Props {
  params: Promise<{ trialId: string }>
  searchParams: Query
}

export default async function SizesPage({ params, searchParams }: Props) {
  const member = await requireMember('recipe:read')
  const { trialId } = await params
  await openToWhoServes(member, { trialId })
  const form = readSizesForm(await once(searchParams))
  const read = await readSizes(theWorld(), member, trialId, form.isBare ? null : form.shares)
  if (!read) notFound()
  const { trial } = read.sheet
  const printed = sayDay(theWorld().now(), member.cafe.timeZone)
  return (
    <Page
      trail={[{ href: `/trials/${trialId}`, words: `Trial ${trial.number}` }]}
      title={`Sizes: ${trial.name}`}
      answer="Scaled by volume from the sheet’s own glass, and not tasted: pour a new size for somebody before it is sold."
      act={<PrintButton words="Print the sizes" />}
    >
      <PrintSheet foot={`${trial.name}, sizes, scaled and not tasted, printed ${printed}`} />
      <ShareFields
        form={form.isBare ? { ...form, typed: typedShares(read.kept) } : form}
        keep={canDo(member, 'recipe:write') ? keepSharesAction.bind(null, trialId) : null}
        kept={typedShares(read.kept)}
      />
      <SheetDoses forToday={read.sheet.forToday} />
      <div className="grid items-start gap-6 lg:grid-cols-2 print:grid-cols-2">
        {read.sizes.map((size) => (
          <SizeParts key={`${size.vessel.name} ${size.vessel.brimMl}`} size={size} currency={member.cafe.currency}>
            {canDo(member, 'recipe:write') && (
              <SizePrice size={size} trialId={trialId} recipeId={trial.recipeId} cafe={member.cafe} />
            )}
          </SizeParts>
        ))}
      </div>
    </Page>
  )
}
