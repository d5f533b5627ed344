import type { Metadata } from 'next'
import { requireMember } from '@/lib/auth/guard'
import { readFound } from '@/lib/tasks/house/read-found'
import { theWorld } from '@/lib/tasks/world'
import { FindForm } from '@/app/ui/find-form'
import { Page } from '@/app/ui/page-frame'
import { once, type Query } from '@/app/ui/query'
import { FoundAll } from './found-lines'

export const metadata: Metadata = { title: 'Find' }

export default async function FindPage({ searchParams }: { searchParams: Query }) {
  const member = await requireMember('recipe:read')
  const { words = '' } = await once(searchParams)
  const typed = words.slice(0, 200)
  const found = await readFound(theWorld(), member, typed)
  const count = Object.values(found).reduce((sum, { lines, more }) => sum + lines.length + more, 0)
  return (
    <Page title="Find" answer={typed.trim() === '' ? undefined : sayCount(count, typed)}>
      <FindForm name="words" label="In recipes, trials, panels and decisions" typed={typed} />
      <FoundAll found={found} zone={member.cafe.timeZone} />
    </Page>
  )
}

function sayCount(count: number, typed: string): string {
  const what = `hold${count === 1 ? 's' : ''} “${typed.trim()}”`
  return count === 0 ? `Nothing holds “${typed.trim()}”.` : `${count} ${count === 1 ? 'line' : 'lines'} ${what}.`
}
