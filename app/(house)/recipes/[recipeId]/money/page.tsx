import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { theWorld } from '@/lib/tasks/world'
import { Page } from '@/app/ui/page-frame'
import { MoneyForm } from './money-form'

export const metadata: Metadata = { title: 'Price and waste' }

export default async function MoneyPage({ params }: { params: Promise<{ recipeId: string }> }) {
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
      title="Price and waste"
    >
      <MoneyForm recipe={recipe} cafe={member.cafe} />
    </Page>
  )
}
