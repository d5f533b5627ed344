import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readHistory } from '@/lib/tasks/recipe/read-recipe'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { Empty, Page, Section } from '@/app/ui/page-frame'
import { DecisionLines, whySentence } from '@/app/ui/decision-lines'
import { PanelLines } from '@/app/ui/panel-lines'
import { once, type Query } from '@/app/ui/query'

export const metadata: Metadata = { title: 'Why this one?' }

interface Doors {
  readonly params: Promise<{ recipeId: string }>
  readonly searchParams: Query
}

export default async function WhyPage({ params, searchParams }: Doors) {
  const member = await requireMember('recipe:read')
  const { recipeId } = await params
  const { page: typed } = await once(searchParams)
  const page = /^[1-9]\d{0,5}$/.test(typed ?? '') ? Number(typed) : 1
  const found = await readHistory(theWorld(), member, recipeId, page)
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
          <Empty words={page === 1 ? 'Nothing has been decided yet.' : 'No earlier decision.'} />
        ) : (
          <DecisionLines decisions={found.decisions} zone={zone} />
        )}
      </Section>
      <Section title="Panels">
        {found.panels.length === 0 ? (
          <Empty words={page === 1 ? 'No panel was held.' : 'No earlier panel.'} />
        ) : (
          <PanelLines panels={found.panels} zone={zone} />
        )}
      </Section>
      {found.more && (
        <ButtonLink look="plain" href={`/recipes/${recipeId}/why?page=${page + 1}`}>
          Earlier
        </ButtonLink>
      )}
    </Page>
  )
}
