import type { Metadata } from 'next'
import Link from 'next/link'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readRecipes } from '@/lib/tasks/recipe/read-recipe'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { Empty, Page } from '@/app/ui/page-frame'
import { DemoMark } from '@/app/ui/demo-mark'

export const metadata: Metadata = { title: 'Recipes' }

export default async function RecipesPage() {
  const member = await requireMember('recipe:read')
  const recipes = (await readRecipes(theWorld(), member)).filter((recipe) => !recipe.archived)
  const start = canDo(member, 'recipe:write') && <ButtonLink href="/recipes/new">Start a recipe</ButtonLink>
  const settled = recipes.filter((recipe) => recipe.house).length
  return (
    <Page
      title="Recipes"
      answer={recipes.length > 0 ? `${settled} of ${recipes.length} drinks have a house recipe.` : undefined}
      act={start}
    >
      {recipes.length === 0 ? (
        <Empty words="A recipe is the drink: “Iced date-cardamom coffee”. Its trials are the weighed versions you make of it." />
      ) : (
        <ul className="divide-y divide-line rounded border border-line bg-raised">
          {recipes.map((recipe) => (
            <li key={recipe.id} className="grid gap-1 px-4 py-3">
              <Link
                href={`/recipes/${recipe.id}`}
                prefetch={false}
                className="justify-self-start py-1 text-l font-semibold"
              >
                {recipe.name}
              </Link>
              <p className="text-soft">
                {recipe.house?.trial
                  ? `House recipe ${recipe.house.version}: trial ${recipe.house.trial.number}, ${recipe.house.trial.name}`
                  : 'No house recipe yet'}
                {' · '}
                {count(recipe.trials, 'trial')}, {count(recipe.panels, 'panel')}
                {recipe.isDemo && <DemoMark />}
              </p>
            </li>
          ))}
        </ul>
      )}
    </Page>
  )
}

const count = (n: number, word: string) => `${n} ${word}${n === 1 ? '' : 's'}`
