import Link from 'next/link'
import type { FoundOf, readFound } from '@/lib/tasks/house/read-found'
import { sayDay } from '@/app/ui/moment'
import { Section } from '@/app/ui/page-frame'

interface Said {
  readonly key: string
  readonly href: string
  readonly words: string
  readonly beside: string
}

type Found = Awaited<ReturnType<typeof readFound>>

export function FoundAll({ found, zone }: { found: Found; zone: string }) {
  return (
    <>
      <FoundLines
        title="Recipes"
        found={found.recipes}
        line={(one) => ({ key: one.id, href: `/recipes/${one.id}`, words: one.name, beside: one.note ?? '' })}
      />
      <FoundLines
        title="Trials"
        found={found.trials}
        line={(one) => ({
          key: one.id,
          href: `/trials/${one.id}`,
          words: `${one.number}. ${one.name}`,
          beside: one.recipe.name,
        })}
      />
      <FoundLines
        title="Panels"
        found={found.panels}
        line={(one) => ({
          key: one.id,
          href: `/panels/${one.id}`,
          words: one.title,
          beside: `${one.question} · ${one.recipe.name}`,
        })}
      />
      <FoundLines
        title="Decisions"
        found={found.decisions}
        line={(one) => ({
          key: one.id,
          href: `/recipes/${one.recipe.id}/why`,
          words: `${one.recipe.name}, ${sayDay(one.at, zone)}`,
          beside: `“${one.reason}”`,
        })}
      />
    </>
  )
}

function FoundLines<Line>({ title, found, line }: { title: string; found: FoundOf<Line>; line: (one: Line) => Said }) {
  if (found.lines.length === 0) return null
  return (
    <Section title={title}>
      <ul className="divide-y divide-line rounded border border-line bg-raised">
        {found.lines.map(line).map(({ key, href, words, beside }) => (
          <li key={key} className="px-4 py-2">
            <Link href={href} prefetch={false} className="inline-block py-1 font-semibold">
              {words}
            </Link>
            {beside && <p className="text-s text-soft">{beside}</p>}
          </li>
        ))}
      </ul>
      {found.more > 0 && <p className="mt-2 text-s text-soft">And {found.more} more: one more word narrows it.</p>}
    </Section>
  )
}
