import type { Metadata } from 'next'
import { requireMember } from '@/lib/auth/guard'
import { ActForm } from '@/app/ui/act-form'
import { AreaField, TextField } from '@/app/ui/field'
import { Page } from '@/app/ui/page-frame'
import { startRecipeAction } from '../actions'

export const metadata: Metadata = { title: 'Start a recipe' }

export default async function NewRecipePage() {
  await requireMember('recipe:write')
  return (
    <Page
      trail={[{ href: '/recipes', words: 'Recipes' }]}
      title="Start a recipe"
      answer="Name the drink; its first trial comes next."
    >
      <ActForm id="recipe" action={startRecipeAction} keep="recipe" submit="Start" className="max-w-md">
        <TextField name="name" label="Name of the drink" required help="As you would write it on the menu." />
        <AreaField name="note" label="What it is for" help="Season, price, who asked for it. For the house only." />
      </ActForm>
    </Page>
  )
}
