import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readSizesForm } from '@/lib/forms/sizes-form'
import { readSizes } from '@/lib/tasks/trial/read-sizes'
import { theWorld } from '@/lib/tasks/world'
import { sayDay } from '@/app/ui/moment'
import { Page } from '@/app/ui/page-frame'
import { PrintButton } from '@/app/ui/print-button'
import { PrintSheet } from '@/app/ui/print-sheet'
import { once, type Query } from '@/app/ui/query'
import { ShareFields } from './share-fields'
import { SizePrice } from './size-price'
import { SizeParts } from './size-parts'

export const metadata: Metadata = { title: 'Sizes' }

interface Props {
  params: Promise<{ trialId: string }>
  searchParams: Query
}

export default async function SizesPage({ params, searchParams }: Props) {
  const member = await requireMember('recipe:read')
  const { trialId } = await params
  const form = readSizesForm(await once(searchParams))
  const read = await readSizes(theWorld(), member, trialId, form.shares)
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
      <ShareFields form={form} />
      <div className="grid items-start gap-6 lg:grid-cols-2 print:grid-cols-2">
        {read.sizes.map((size) => (
          <SizeParts key={`${size.vessel.name} ${size.vessel.brimMl}`} size={size}>
            {canDo(member, 'recipe:write') && (
              <SizePrice size={size} trialId={trialId} recipeId={trial.recipeId} cafe={member.cafe} />
            )}
          </SizeParts>
        ))}
      </div>
    </Page>
  )
}
