import type { Metadata } from 'next'
import { requireMember } from '@/lib/auth/guard'
import { ActForm } from '@/app/ui/act-form'
import { Page } from '@/app/ui/page-frame'
import { startPreparationAction } from '../actions'
import { PreparationFields } from '../preparation-fields'

export const metadata: Metadata = { title: 'Start a preparation' }

export default async function NewPreparationPage() {
  await requireMember('recipe:write')
  return (
    <Page
      trail={[{ href: '/store', words: 'Store' }]}
      title="Start a preparation"
      answer="A syrup or a brew made in the house. Each making of it is a batch, weighed before and after."
    >
      <ActForm
        id="preparation"
        action={startPreparationAction}
        keep="preparation"
        defaults={{ kind: 'syrup' }}
        submit="Go on to its first batch"
        className="max-w-md"
      >
        <PreparationFields />
      </ActForm>
    </Page>
  )
}
