import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readBeside } from '@/lib/tasks/recipe/read-beside'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { sayDay } from '@/app/ui/moment'
import { Page } from '@/app/ui/page-frame'
import { PrintButton } from '@/app/ui/print-button'
import { PrintSheet } from '@/app/ui/print-sheet'
import { every, once, type Query } from '@/app/ui/query'
import { BesideCautions, BesideTable } from './beside-table'
import { Refused, TrialPick } from './trial-pick'

export const metadata: Metadata = { title: 'Side by side' }

interface Props {
  params: Promise<{ recipeId: string }>
  searchParams: Query
}

export default async function BesidePage({ params, searchParams }: Props) {
  const member = await requireMember('recipe:read')
  const { recipeId } = await params
  const home = (await once(searchParams))['measures'] === 'home'
  const found = await readBeside(theWorld(), member, recipeId, await every(searchParams, 'trial'), home)
  if (!found) notFound()
  const { recipe, named, refused } = found
  const zone = member.cafe.timeZone
  const here = `/recipes/${recipeId}/beside?${named.map((id) => `trial=${id}`).join('&')}`
  return (
    <Page
      trail={[
        { href: '/recipes', words: 'Recipes' },
        { href: `/recipes/${recipeId}`, words: recipe.name },
      ]}
      title={`${recipe.name}, side by side`}
      act={
        refused === null && (
          <>
            <PrintButton />
            <ButtonLink look="quiet" href={home ? here : `${here}&measures=home`}>
              {home ? 'Grams alone' : 'With home measures'}
            </ButtonLink>
          </>
        )
      }
    >
      <PrintSheet landscape foot={`${recipe.name}, side by side, printed ${sayDay(theWorld().now(), zone)}`} />
      <Refused found={found} />
      {refused === null && <BesideTable found={found} zone={zone} />}
      <BesideCautions found={found} />
      <TrialPick found={found} home={home} />
    </Page>
  )
}
