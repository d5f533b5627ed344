import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { recipeWordsMark } from '@/lib/tasks/opened-with'
import { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { AreaField, TextField } from '@/app/ui/field'
import { Page } from '@/app/ui/page-frame'
import { changeRecipeAction } from '../../actions'

export const metadata: Metadata = { title: 'Name and description' }

export default async function RecipeWordsPage({ params }: { params: Promise<{ recipeId: string }> }) {
  const member = await requireMember('recipe:write')
  const { recipeId } = await params
  const found = await readRecipe(theWorld(), member, recipeId)
  if (!found) notFound()
  const { recipe } = found
  return (
    <Page
      trail={[
        { href: '/recipes', words: 'Recipes' },
        { href: `/recipes/${recipeId}`, words: recipe.name },
      ]}
      title="Name and description"
      answer="Panels, decisions and cards call it by its new name from then on; what was printed keeps the old one."
    >
      <ActForm
        id="recipe"
        action={changeRecipeAction.bind(null, recipeId)}
        keep={`recipe-words-${recipeId}`}
        opened={recipeWordsMark(recipe)}
        defaults={{ name: recipe.name, note: recipe.note ?? '' }}
        submit="Save"
        className="max-w-xl"
      >
        <TextField name="name" label="Name" required />
        <AreaField name="note" label="Description" help="What it is, for whom, what it should taste of." />
      </ActForm>
    </Page>
  )
}
