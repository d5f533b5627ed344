import type { Metadata } from 'next'
import { requireMember } from '@/lib/auth/guard'
import { readFound } from '@/lib/tasks/house/read-found'
import { theWorld } from '@/lib/tasks/world'
import { FindForm } from '@/app/ui/find-form'
import { sayDay } from '@/app/ui/moment'
import { Page } from '@/app/ui/page-frame'
import { FoundLines } from './found-lines'

export const metadata: Metadata = { title: 'Find' }

export default async function FindPage({ searchParams }: { searchParams: Promise<{ words?: string | string[] }> }) {
  const member = await requireMember('recipe:read')
  const { words } = await searchParams
  const typed = typeof words === 'string' ? words.slice(0, 200) : ''
  const { recipes, trials, panels, decisions } = await readFound(theWorld(), member, typed)
  const count = [recipes, trials, panels, decisions].reduce((sum, { lines, more }) => sum + lines.length + more, 0)
  return (
    <Page title="Find" answer={typed.trim() === '' ? undefined : sayCount(count, typed)}>
      <FindForm name="words" label="In recipes, trials, panels and decisions" typed={typed} />
      <FoundLines
        title="Recipes"
        found={recipes}
        line={(one) => ({ key: one.id, href: `/recipes/${one.id}`, words: one.name, beside: one.note ?? '' })}
      />
      <FoundLines
        title="Trials"
        found={trials}
        line={(one) => ({
          key: one.id,
          href: `/trials/${one.id}`,
          words: `${one.number}. ${one.name}`,
          beside: one.recipe.name,
        })}
      />
      <FoundLines
        title="Panels"
        found={panels}
        line={(one) => ({
          key: one.id,
          href: `/panels/${one.id}`,
          words: one.title,
          beside: `${one.question} · ${one.recipe.name}`,
        })}
      />
      <FoundLines
        title="Decisions"
        found={decisions}
        line={(one) => ({
          key: one.id,
          href: `/recipes/${one.recipe.id}/why`,
          words: `${one.recipe.name}, ${sayDay(one.at, member.cafe.timeZone)}`,
          beside: `“${one.reason}”`,
        })}
      />
    </Page>
  )
}

function sayCount(count: number, typed: string): string {
  const what = `hold${count === 1 ? 's' : ''} “${typed.trim()}”`
  return count === 0 ? `Nothing holds “${typed.trim()}”.` : `${count} ${count === 1 ? 'line' : 'lines'} ${what}.`
}
