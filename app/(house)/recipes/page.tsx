import type { Metadata } from 'next'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readRecipes } from '@/lib/tasks/recipe/read-recipe'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { FindForm } from '@/app/ui/find-form'
import { Empty, Page } from '@/app/ui/page-frame'
import { RecipeList, RecipesPutAside } from './recipe-list'

export const metadata: Metadata = { title: 'Recipes' }

export default async function RecipesPage() {
  const member = await requireMember('recipe:read')
  const all = await readRecipes(theWorld(), member)
  const recipes = all.filter((recipe) => !recipe.archived)
  const start = canDo(member, 'recipe:write') && <ButtonLink href="/recipes/new">Start a recipe</ButtonLink>
  const settled = recipes.filter((recipe) => recipe.house).length
  return (
    <Page
      title="Recipes"
      answer={
        recipes.length > 0
          ? `${settled} of ${recipes.length} drinks ${settled === 1 ? 'has' : 'have'} a house recipe.`
          : undefined
      }
      act={start}
    >
      {all.length > 0 && (
        <FindForm action="/find" name="words" label="Find in recipes, trials, panels and decisions" typed="" />
      )}
      {recipes.length === 0 ? (
        <Empty words="A recipe is the drink: “Iced date-cardamom coffee”. Its trials are the weighed versions you make of it." />
      ) : (
        <RecipeList recipes={recipes} />
      )}
      <RecipesPutAside recipes={all.filter((recipe) => recipe.archived)} />
    </Page>
  )
}
