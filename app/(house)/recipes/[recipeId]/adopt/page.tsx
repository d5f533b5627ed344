import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readAdoptable } from '@/lib/tasks/recipe/read-adoptable'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { AreaField, SelectField } from '@/app/ui/field'
import { Notice } from '@/app/ui/notice'
import { Page } from '@/app/ui/page-frame'
import { adoptAction } from '../../actions'
import { NotOffered } from './not-offered'

export const metadata: Metadata = { title: 'Adopt without a panel' }

export default async function AdoptPage({ params }: { params: Promise<{ recipeId: string }> }) {
  const member = await requireMember('decide')
  const { recipeId } = await params
  const found = await readAdoptable(theWorld(), member, recipeId)
  if (!found) notFound()
  const choices = found.trials
    .filter((trial) => trial.toMend === null)
    .map((trial) => ({ value: trial.id, words: `${trial.number}. ${trial.name}` }))
  const toMend = found.trials.filter((trial) => trial.toMend !== null)
  return (
    <Page
      trail={[
        { href: '/recipes', words: 'Recipes' },
        { href: `/recipes/${recipeId}`, words: found.recipe.name },
      ]}
      title="Adopt a trial without a panel"
      answer="For a drink that is on the menu already: later panels compare against it."
    >
      <Notice>
        The history will say that no panel chose it. The trial is frozen from now on; changing it makes a new one.
      </Notice>
      <NotOffered trials={toMend} />
      <ActForm
        id="adopt"
        action={adoptAction.bind(null, recipeId)}
        keep={`adopt-${recipeId}`}
        submit="Adopt as house recipe"
        className="max-w-md"
      >
        <SelectField name="trialId" label="Trial" choices={choices} />
        <AreaField name="reason" label="Reason" help="Someone will ask in a year." />
      </ActForm>
    </Page>
  )
}
