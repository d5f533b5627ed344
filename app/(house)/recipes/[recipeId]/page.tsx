import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { theWorld } from '@/lib/tasks/world'
import { Page } from '@/app/ui/page-frame'
import { RecipeActs, HouseSentence } from './recipe-head'
import { PanelsSection, TrialsSection } from './recipe-sections'
import { HomeSection } from './home-section'
import { MethodGridSection } from './method-grid'

export const metadata: Metadata = { title: 'Recipe' }

export default async function RecipePage({ params }: { params: Promise<{ recipeId: string }> }) {
  const member = await requireMember('recipe:read')
  const { recipeId } = await params
  const found = await readRecipe(theWorld(), member, recipeId)
  if (!found) notFound()
  const writes = canDo(member, 'recipe:write')
  const here = `/recipes/${recipeId}`
  return (
    <Page
      trail={[{ href: '/recipes', words: 'Recipes' }]}
      title={found.recipe.name}
      answer={<HouseSentence house={found.house} zone={member.cafe.timeZone} trials={found.trials.length} />}
      act={
        <RecipeActs
          here={here}
          recipeId={recipeId}
          house={found.house !== null}
          trials={found.trials.length}
          archived={found.recipe.archivedAt !== null}
          writes={writes}
        />
      }
    >
      {found.recipe.archivedAt && <p>Put aside: no panel is planned of it until it is taken up again.</p>}
      {found.recipe.note && <p className="max-w-prose whitespace-pre-line">{found.recipe.note}</p>}
      <MethodGridSection grid={found.grid} zone={member.cafe.timeZone} />
      <TrialsSection found={found} here={here} writes={writes} />
      <PanelsSection found={found} here={here} runs={canDo(member, 'panel:run')} zone={member.cafe.timeZone} />
      <HomeSection recipeId={recipeId} writes={writes} />
    </Page>
  )
}
