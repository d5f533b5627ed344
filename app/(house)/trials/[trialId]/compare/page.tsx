import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readComparison } from '@/lib/tasks/trial/compare-trials'
import { theWorld } from '@/lib/tasks/world'
import { ChangeTable } from '@/app/ui/change-table'
import { Notice } from '@/app/ui/notice'
import { Page } from '@/app/ui/page-frame'
import { once, type Query } from '@/app/ui/query'

export const metadata: Metadata = { title: 'Two trials compared' }

interface Props {
  params: Promise<{ trialId: string }>
  searchParams: Query
}

export default async function ComparePage({ params, searchParams }: Props) {
  const member = await requireMember('recipe:read')
  const { trialId } = await params
  const { with: otherId } = await once(searchParams)
  const found = otherId ? await readComparison(theWorld(), member, otherId, trialId) : null
  if (!found) notFound()
  return (
    <Page
      trail={[
        { href: `/recipes/${found.after.recipeId}`, words: found.after.recipe.name },
        { href: `/trials/${trialId}`, words: `Trial ${found.after.number}` },
      ]}
      title={`Trial ${found.with.number} and trial ${found.after.number}`}
    >
      {found.warning && <Notice look="caution">{found.warning}</Notice>}
      <ChangeTable comparison={found} after={found.after.name} />
    </Page>
  )
}
