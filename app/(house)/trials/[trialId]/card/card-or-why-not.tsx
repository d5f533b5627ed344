import Link from 'next/link'
import type { ComponentProps } from 'react'
import type { CardSheet } from '@/lib/tasks/trial/read-card'
import { Notice } from '@/app/ui/notice'
import { HouseCard } from './house-card'

/** The card, or what has to be read before there is one. @param mayRead  may this person open the store? */
export function CardOrWhyNot({ mayRead, ...card }: ComponentProps<typeof HouseCard> & { mayRead: boolean }) {
  const { unread } = card.card
  return unread.length > 0 ? <NotPrinted unread={unread} links={mayRead} /> : <HouseCard {...card} />
}

/** In the place of a card whose allergens nobody can vouch for: what has to be read first, where one may read it. */
function NotPrinted({ unread, links }: { unread: CardSheet['unread']; links: boolean }) {
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
