import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { theWorld } from '@/lib/tasks/world'
import { Empty, Page, Section } from '@/app/ui/page-frame'
import { DecisionLines, whySentence } from '@/app/ui/decision-lines'
import { PanelLines } from '@/app/ui/panel-lines'
import { TrialTree } from '@/app/ui/trial-tree'

export const metadata: Metadata = { title: 'Why this one?' }

export default async function WhyPage({ params }: { params: Promise<{ recipeId: string }> }) {
  const member = await requireMember('recipe:read')
  const { recipeId } = await params
  const found = await readRecipe(theWorld(), member, recipeId)
  if (!found) notFound()
  const zone = member.cafe.timeZone
  return (
    <Page
      trail={[
        { href: '/recipes', words: 'Recipes' },
        { href: `/recipes/${recipeId}`, words: found.recipe.name },
      ]}
      title="Why this one?"
      answer={whySentence(found.house, zone)}
    >
      <Section title="Decisions">
        {found.decisions.length === 0 ? (
          <Empty words="Nothing has been decided yet." />
        ) : (
          <DecisionLines decisions={found.decisions} zone={zone} />
        )}
      </Section>
      <Section title="Panels">
        {found.panels.length === 0 ? (
          <Empty words="No panel was held." />
        ) : (
          <PanelLines panels={found.panels} zone={zone} />
        )}
      </Section>
      <Section title="Trials">
        <TrialTree trials={found.trials} />
      </Section>
    </Page>
  )
}
