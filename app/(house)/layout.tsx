import type { ReactNode } from 'react'
import { canDo, findVisitor } from '@/lib/auth/guard'
import { HouseHeader, type Door } from '@/app/ui/house-header'

export const dynamic = 'force-dynamic'

/** The frame of every signed-in page. The pages guard themselves; this only draws what the visitor may open. */
export default async function HouseLayout({ children }: { children: ReactNode }) {
  const member = await findVisitor()
  if (!member) return children
  const doors: Door[] = [
    { href: '/', words: 'Home', open: true },
    { href: '/bar', words: 'Bar', open: canDo(member, 'bar:make') },
    { href: '/recipes', words: 'Recipes', open: canDo(member, 'recipe:read') },
    { href: '/panels', words: 'Panels', open: canDo(member, 'panel:read') || canDo(member, 'panel:pour') },
    { href: '/store', words: 'Store', open: canDo(member, 'recipe:read') },
    { href: '/team', words: 'Team', open: canDo(member, 'team') },
    { href: '/diary', words: 'Diary', open: canDo(member, 'diary') },
  ]
  return (
    <>
      <HouseHeader
        cafe={member.cafe.name}
        isDemo={member.cafe.isDemo}
        person={member.name}
        doors={doors.filter((door) => door.open)}
      />
      {children}
    </>
  )
}
