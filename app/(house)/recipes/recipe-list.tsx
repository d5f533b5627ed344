import Link from 'next/link'
import type { readRecipes } from '@/lib/tasks/recipe/read-recipe'
import { DemoMark } from '@/app/ui/demo-mark'
import { Fold } from '@/app/ui/page-frame'

type Recipe = Awaited<ReturnType<typeof readRecipes>>[number]

export function RecipeList({ recipes }: { recipes: readonly Recipe[] }) {
  return (
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
  )
}

export function RecipesPutAside({ recipes }: { recipes: readonly Recipe[] }) {
  if (recipes.length === 0) return null
  return (
    <Fold words={`${count(recipes.length, 'recipe')} put aside`}>
      <RecipeList recipes={recipes} />
    </Fold>
  )
}

const count = (n: number, word: string) => `${n} ${word}${n === 1 ? '' : 's'}`
