import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readPhotos } from '@/lib/tasks/photo/read-photos'
import { theWorld } from '@/lib/tasks/world'
import { Empty, Page } from '@/app/ui/page-frame'
import { once, type Query } from '@/app/ui/query'
import { PhotoForm } from './photo-form'
import { PhotoList } from './photo-list'

export const metadata: Metadata = { title: 'Photos' }

interface Props {
  params: Promise<{ recipeId: string }>
  searchParams: Query
}

export default async function PhotosPage({ params, searchParams }: Props) {
  const member = await requireMember('recipe:read')
  const { recipeId } = await params
  const found = await readPhotos(theWorld(), member, recipeId)
  if (!found) notFound()
  const asked = await once(searchParams)
  const writes = canDo(member, 'recipe:write')
  return (
    <Page
      trail={[
        { href: '/recipes', words: 'Recipes' },
        { href: `/recipes/${recipeId}`, words: found.recipe.name },
      ]}
      title="Photos"
      answer="How it is meant to look. No taster’s phone shows them."
    >
      {found.isTasting ? (
        <p>You have a seat in an open panel of this recipe: its photos open when the panel is closed.</p>
      ) : found.photos.length === 0 ? (
        <Empty words="No photo yet." />
      ) : (
        <PhotoList found={found} zone={member.cafe.timeZone} writes={writes} />
      )}
      {writes && !found.isTasting && <PhotoForm found={found} asked={asked} />}
    </Page>
  )
}
