import type { Metadata } from 'next'
import { requireMember } from '@/lib/auth/guard'
import { ActForm } from '@/app/ui/act-form'
import { Page } from '@/app/ui/page-frame'
import { enterVesselAction } from '../../actions'
import { VesselFields } from '../vessel-fields'

export const metadata: Metadata = { title: 'Measure a vessel' }

export default async function NewVesselPage() {
  const member = await requireMember('recipe:write')
  return (
    <Page
      trail={[{ href: '/store', words: 'Store' }]}
      title="Measure a vessel"
      answer="What it holds to the brim decides whether a drink fits."
    >
      <ActForm
        id="vessel"
        action={enterVesselAction}
        keep="vessel"
        defaults={{ isClear: 'on' }}
        submit="Save the vessel"
        className="max-w-md"
      >
        <VesselFields currency={member.cafe.currency} />
      </ActForm>
    </Page>
  )
}
