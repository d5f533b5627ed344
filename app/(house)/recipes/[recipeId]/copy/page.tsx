import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { CheckField, TextField } from '@/app/ui/field'
import { Page } from '@/app/ui/page-frame'
import { copyRecipeAction } from '../../actions'

export const metadata: Metadata = { title: 'Copy a recipe' }

export default async function CopyRecipePage({ params }: { params: Promise<{ recipeId: string }> }) {
  const member = await requireMember('recipe:write')
  const { recipeId } = await params
  const found = await readRecipe(theWorld(), member, recipeId)
  if (!found) notFound()
  const { recipe, trials, house } = found
  const first = house?.trial.id ?? trials.at(-1)?.id
  return (
    <Page
      trail={[
        { href: '/recipes', words: 'Recipes' },
        { href: `/recipes/${recipeId}`, words: recipe.name },
      ]}
      title="Copy it"
      answer="A new recipe with the same description, money and cost levels. The trials you choose become drafts in it: nobody has tasted them as that drink. Panels, decisions and notes stay here."
    >
      <ActForm
        id="copy"
        action={copyRecipeAction.bind(null, recipeId)}
        defaults={{ trials: first === undefined ? [] : [first] }}
        submit="Copy it"
        className="max-w-xl"
      >
        <TextField name="name" label="Name of the new recipe" required />
        <fieldset className="grid gap-1">
          <legend className="font-semibold">Trials that go along</legend>
          {trials.map((trial) => (
            <CheckField key={trial.id} name="trials" value={trial.id} label={`${trial.number}. ${trial.name}`} />
          ))}
        </fieldset>
      </ActForm>
    </Page>
  )
}
