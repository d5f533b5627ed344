import Link from 'next/link'
import type { FoundOf } from '@/lib/tasks/house/read-found'
import { Section } from '@/app/ui/page-frame'

interface Said {
  readonly key: string
  readonly href: string
  readonly words: string
  readonly beside: string
}

export function FoundLines<Line>({
  title,
  found,
  line,
}: {
  title: string
  found: FoundOf<Line>
  line: (one: Line) => Said
}) {
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
