import type { Metadata } from 'next'
import Link from 'next/link'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readShelves } from '@/lib/tasks/store/read-shelves'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { FindForm } from '@/app/ui/find-form'
import { Page } from '@/app/ui/page-frame'
import { once, type Query } from '@/app/ui/query'
import { IngredientShelf, PreparationShelf, VesselShelf } from './shelves'

export const metadata: Metadata = { title: 'Store' }

export default async function StorePage({ searchParams }: { searchParams: Query }) {
  const member = await requireMember('recipe:read')
  const { name = '' } = await once(searchParams)
  const shelves = await readShelves(theWorld(), member, name)
  const writes = canDo(member, 'recipe:write')
  const unread = shelves.ingredients.filter((one) => !one.archived && !one.labelRead).length
  return (
    <Page
      title="Store"
      answer={
        unread > 0
          ? `${unread} ${unread === 1 ? 'label has' : 'labels have'} not been read for allergens.`
          : 'Every label has been read for allergens.'
      }
      act={
        writes && (
          <>
            <ButtonLink href="/store/ingredients/new">Enter an ingredient</ButtonLink>
            <ButtonLink look="plain" href="/store/preparations/new">
              Start a preparation
            </ButtonLink>
            <ButtonLink look="quiet" href="/store/vessels/new">
              Measure a vessel
            </ButtonLink>
          </>
        )
      }
    >
      <p>
        <Link href="/store/changes" prefetch={false} className="inline-block py-1">
          Changed prices, packs, suppliers and labels
        </Link>
        {writes && (
          <Link href="/store/scales" prefetch={false} className="ms-4 inline-block py-1">
            Scales
          </Link>
        )}
      </p>
      <FindForm name="name" label="Find by name" typed={name} />
      <IngredientShelf rows={shelves.ingredients} cafe={member.cafe} />
      <PreparationShelf rows={shelves.preparations} zone={member.cafe.timeZone} />
      <VesselShelf rows={shelves.vessels} cafe={member.cafe} />
    </Page>
  )
}
