import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { TextField } from '@/app/ui/field'
import { Page } from '@/app/ui/page-frame'
import { branchTrialAction } from '../../actions'

export const metadata: Metadata = { title: 'Make another from it' }

export default async function VaryPage({ params }: { params: Promise<{ trialId: string }> }) {
  const member = await requireMember('recipe:write')
  const { trialId } = await params
  const sheet = await readTrial(theWorld(), member, trialId)
  if (!sheet) notFound()
  return (
    <Page
      trail={[
        { href: `/recipes/${sheet.trial.recipeId}`, words: sheet.trial.recipe.name },
        { href: `/trials/${trialId}`, words: `Trial ${sheet.trial.number}` },
      ]}
      title={`Another trial from trial ${sheet.trial.number}`}
      answer="It starts as this one stands. Change one thing, and a difference in taste has one cause."
    >
      <ActForm id="branch" action={branchTrialAction.bind(null, trialId)} submit="Open its sheet" className="max-w-md">
        <TextField name="name" label="Name" required help="What you will vary: “35 g date syrup”." />
      </ActForm>
    </Page>
  )
}
