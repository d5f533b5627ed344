import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { preparationMark } from '@/lib/tasks/opened-with'
import { readPreparation } from '@/lib/tasks/store/read-preparation'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { Page } from '@/app/ui/page-frame'
import { changePreparationAction } from '../../actions'
import { preparationDefaults } from '../../preparation-defaults'
import { PreparationFields } from '../../preparation-fields'

export const metadata: Metadata = { title: 'Change a preparation' }

export default async function EditPreparationPage({ params }: { params: Promise<{ preparationId: string }> }) {
  const member = await requireMember('recipe:write')
  const { preparationId } = await params
  const preparation = await readPreparation(theWorld(), member, preparationId)
  if (!preparation) notFound()
  return (
    <Page
      trail={[
        { href: '/store', words: 'Store' },
        { href: `/store/preparations/${preparationId}`, words: preparation.name },
      ]}
      title="Change a preparation"
    >
      <ActForm
        id="preparation"
        action={changePreparationAction.bind(null, preparationId)}
        keep={`preparation-${preparationId}`}
        opened={preparationMark(preparation)}
        defaults={preparationDefaults(preparation)}
        submit="Save"
        className="max-w-md"
      >
        <PreparationFields />
      </ActForm>
    </Page>
  )
}
