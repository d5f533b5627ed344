import Link from 'next/link'
import { ButtonLink } from '@/app/ui/button'
import { Empty } from '@/app/ui/page-frame'
import { counted } from '../panel-words'

interface RecipeRow {
  readonly id: string
  readonly name: string
  readonly trials: number
}

export function RecipeChoice({ recipes }: { readonly recipes: readonly RecipeRow[] }) {
  if (recipes.length === 0) {
    return (
      <Empty
        words="There is no recipe yet. A panel compares weighed trials of a recipe."
        act={<ButtonLink href="/recipes">To the recipes</ButtonLink>}
      />
    )
  }
  return (
    <ul className="grid gap-2">
      {recipes.map((recipe) => (
        <li
          key={recipe.id}
          className="flex flex-wrap items-center justify-between gap-x-4 rounded border border-line bg-raised px-4 py-2"
        >
          {recipe.trials >= 2 ? (
            <Link
              href={`/panels/new?recipe=${recipe.id}`}
              prefetch={false}
              className="inline-flex min-h-11 items-center font-semibold"
            >
              {recipe.name}
            </Link>
          ) : (
            <span className="inline-flex min-h-11 items-center">{recipe.name}</span>
          )}
          <span className="text-s text-soft">
            {counted(recipe.trials, 'trial')}
            {recipe.trials < 2 && (
              <>
                ; a panel needs two.{' '}
                <Link href={`/recipes/${recipe.id}`} prefetch={false}>
                  To the recipe
                </Link>
              </>
            )}
          </span>
        </li>
      ))}
    </ul>
  )
}
