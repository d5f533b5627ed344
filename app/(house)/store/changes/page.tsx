import type { Metadata } from 'next'
import Link from 'next/link'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readChanges, readLookedChanges } from '@/lib/tasks/recipe/read-changes'
import { theWorld } from '@/lib/tasks/world'
import { sayMoment } from '@/app/ui/moment'
import { Empty, Fold, Page } from '@/app/ui/page-frame'
import { storeTrail } from '../say-store'
import { ChangedPart } from './change-parts'
import { sayChange } from './say-change'

export const metadata: Metadata = { title: 'Changes in the store' }

export default async function ChangesPage() {
  const member = await requireMember('recipe:read')
  const [changed, looked] = await Promise.all([readChanges(theWorld(), member), readLookedChanges(theWorld(), member)])
  const writes = canDo(member, 'recipe:write')
  const zone = member.cafe.timeZone
  return (
    <Page
      trail={[storeTrail]}
      title="Changes in the store"
      answer={
        changed.length === 0
          ? 'Nothing waits to be looked at.'
          : `${changed.length === 1 ? 'One ingredient' : `${changed.length} ingredients`} changed since somebody looked.`
      }
    >
      {changed.length === 0 && (
        <Empty words="When a price, a pack, a supplier or a label changes, the glasses it is in stand here, with what each costs now and what should be tasted again." />
      )}
      {changed.map((one) => (
        <ChangedPart key={one.id} one={one} cafe={member.cafe} writes={writes} />
      ))}
      {looked.length > 0 && (
        <Fold words={`Looked at lately: ${looked.length}`}>
          <ul className="divide-y divide-line">
            {looked.map((change) => (
              <li key={change.id} className="py-2">
                <Link href={`/store/ingredients/${change.ingredient.id}`} prefetch={false}>
                  {change.ingredient.name}
                </Link>
                . {sayChange(change.said, member.cafe).join(' ')}{' '}
                <span className="text-s text-soft">
                  Looked at by {change.lookedBy}
                  {change.lookedAt && `, ${sayMoment(change.lookedAt, zone)}`}
                </span>
              </li>
            ))}
          </ul>
        </Fold>
      )}
    </Page>
  )
}
