import type { Metadata } from 'next'
import { requireMember } from '@/lib/auth/guard'
import { scalesMark } from '@/lib/tasks/opened-with'
import { readScales } from '@/lib/tasks/store/read-scales'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { Page } from '@/app/ui/page-frame'
import { keepScalesAction } from './actions'
import { scalesDefaults } from './scales-defaults'
import { ScaleFields } from './scale-fields'

export const metadata: Metadata = { title: 'Scales' }

export default async function ScalesPage() {
  const member = await requireMember('recipe:write')
  const scales = await readScales(theWorld(), member)
  return (
    <Page
      trail={[{ href: '/store', words: 'Store' }]}
      title="Scales"
      answer="What a scale shows at least decides how near a dose can be weighed: sheets, cards and lists print it so."
    >
      <ActForm
        id="scales"
        action={keepScalesAction}
        keep="scales"
        opened={scalesMark(scales)}
        defaults={scalesDefaults(scales)}
        submit="Save"
        className="max-w-md"
      >
        <ScaleFields />
      </ActForm>
    </Page>
  )
}
