import Link from 'next/link'
import { Moment } from '@/app/ui/moment'
import { Section } from '@/app/ui/page-frame'
import type { PanelLine } from '@/lib/tasks/plan/read-panels'
import { counted } from './panel-words'

interface May {
  readonly read: boolean
  readonly pour: boolean
  readonly watch: boolean
}

const groups = [
  { stage: 'open', title: 'Open now', since: 'opened' },
  { stage: 'closed', title: 'Waiting for a decision', since: 'closed' },
  { stage: 'draft', title: 'Drafts', since: 'planned' },
  { stage: 'decided', title: 'Decided', since: 'closed' },
  { stage: 'called-off', title: 'Called off', since: 'called off' },
] as const

/** Panels by what they need, the most urgent first. */
export function PanelLines({ panels, zone, may }: { panels: readonly PanelLine[]; zone: string; may: May }) {
  return groups.map(({ stage, title, since }) => {
    const here = panels.filter((panel) => panel.stage === stage)
    if (here.length === 0) return null
    return (
      <Section
        key={stage}
        title={title}
        aside={here.length < 100 ? counted(here.length, 'panel') : `the newest ${here.length}`}
      >
        <ul className="divide-y divide-line">
          {here.map((panel) => (
            <PanelRow key={panel.id} panel={panel} since={since} zone={zone} may={may} />
          ))}
        </ul>
      </Section>
    )
  })
}

function PanelRow({ panel, since, zone, may }: { panel: PanelLine; since: string; zone: string; may: May }) {
  const href = `/panels/${panel.id}`
  return (
    <li className="flex flex-wrap items-baseline justify-between gap-x-6 py-2">
      <div>
        {may.read ? (
          <Link href={href} prefetch={false} className="inline-flex min-h-11 items-center font-semibold">
            {panel.title}
          </Link>
        ) : (
          <span className="inline-flex min-h-11 items-center font-semibold">{panel.title}</span>
        )}
        {panel.isDemo && <span className="ms-2 text-s text-caution">demo</span>}
        <p className="text-s text-soft">
          {panel.recipe.name !== panel.title && `${panel.recipe.name}; `}
          {counted(panel.cups, 'cup')} for {counted(panel.seats, 'seat')}; {since} <Moment at={panel.at} zone={zone} />
        </p>
      </div>
      {panel.stage === 'open' && <OpenLinks href={href} may={may} />}
    </li>
  )
}

function OpenLinks({ href, may }: { href: string; may: May }) {
  const links = [
    ...(may.pour
      ? [
          { to: 'filling', words: 'Filling list' },
          { to: 'serving', words: 'Serving list' },
        ]
      : []),
    ...(may.watch ? [{ to: 'watch', words: 'Watch' }] : []),
  ]
  return (
    <p className="flex flex-wrap gap-x-4">
      {links.map(({ to, words }) => (
        <Link key={to} href={`${href}/${to}`} prefetch={false} className="inline-flex min-h-11 items-center">
          {words}
        </Link>
      ))}
    </p>
  )
}
