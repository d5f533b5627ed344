import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readHomeSheets } from '@/lib/tasks/home/read-home-sheets'
import { theWorld } from '@/lib/tasks/world'
import { Page, Section } from '@/app/ui/page-frame'
import { once, type Query } from '@/app/ui/query'
import { HomeAnswers } from './home-answers'
import { HomeNotices, SheetList, WorkParts } from './home-parts'

export const metadata: Metadata = { title: 'From home' }

interface Props {
  params: Promise<{ recipeId: string }>
  searchParams: Query
}

export default async function HomePage({ params, searchParams }: Props) {
  const member = await requireMember('recipe:read')
  const { recipeId } = await params
  const { taken, page: asked = '1' } = await once(searchParams)
  const page = /^[1-9]\d{0,3}$/.test(asked) ? Number(asked) : 1
  const found = await readHomeSheets(theWorld(), member, recipeId, page)
  if (!found) notFound()
  const [writes, zone, here] = [canDo(member, 'recipe:write'), member.cafe.timeZone, `/recipes/${recipeId}`]
  return (
    <Page
      trail={[
        { href: '/recipes', words: 'Recipes' },
        { href: here, words: found.recipe.name },
      ]}
      title="From home"
      answer="What people who made it at home changed, and how they liked it. It stands beside what blind panels found, and is never counted with it."
    >
      <HomeNotices hearsBack={found.hearsBack} taken={taken} owner={canDo(member, 'cafe')} />
      <Section title="What came back">
        <HomeAnswers found={found} zone={zone} writes={writes} here={`${here}/home`} page={page} />
      </Section>
      <Section title="Sheets given out">
        <SheetList sheets={found.sheets} here={`${here}/home`} zone={zone} />
      </Section>
      {writes && found.hearsBack && <WorkParts found={found} />}
    </Page>
  )
}
