import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { Empty, Page, Section } from '@/app/ui/page-frame'
import { TrialTree } from '@/app/ui/trial-tree'
import { PanelLines } from '@/app/ui/panel-lines'
import { RecipeActs, HouseSentence } from './recipe-head'

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
      {found.recipe.note && <p className="max-w-prose">{found.recipe.note}</p>}
      <Section
        title="Trials"
        aside={
          writes && (
            <ButtonLink look="quiet" href={`${here}/first-trial`}>
              Record a trial
            </ButtonLink>
          )
        }
      >
        {found.trials.length === 0 ? (
          <Empty words="No trial yet. Weigh one version of the drink and write down what went in." />
        ) : (
          <TrialTree trials={found.trials} />
        )}
      </Section>
      <Section
        title="Panels"
        aside={
          canDo(member, 'panel:run') && (
            <ButtonLink look="quiet" href={`/panels/new?recipe=${recipeId}`}>
              Plan a panel
            </ButtonLink>
          )
        }
      >
        {found.panels.length === 0 ? (
          <Empty words="No panel yet. Two trials are enough to ask tasters, blind, which they like better." />
        ) : (
          <PanelLines panels={found.panels} zone={member.cafe.timeZone} />
        )}
        {found.panelCount > found.panels.length && (
          <ButtonLink look="plain" href={`${here}/why?page=2`}>
            Earlier panels, of {found.panelCount}
          </ButtonLink>
        )}
      </Section>
    </Page>
  )
}
