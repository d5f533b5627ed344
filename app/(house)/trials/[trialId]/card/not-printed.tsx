import Link from 'next/link'
import type { CardSheet } from '@/lib/tasks/trial/read-card'
import { Notice } from '@/app/ui/notice'

/** In the place of a card whose allergens nobody can vouch for: what has to be read first, where one may read it. */
export function NotPrinted({ unread, links }: { unread: CardSheet['unread']; links: boolean }) {
  return (
    <Notice look="stop" word="No card yet">
      Nobody has read for allergens the label of{' '}
      {unread.map(({ id, name }, at) => (
        <span key={name}>
          {at > 0 && ', '}
          {links ? <Link href={id ? `/store/ingredients/${id}` : '/store'}>{name}</Link> : name}
        </span>
      ))}
      . Read each label and say so {links ? 'there' : 'in the store, or ask who keeps the recipes'}: then the card can
      be printed, and not before.
    </Notice>
  )
}
