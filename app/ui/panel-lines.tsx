import Link from 'next/link'
import { Moment } from './moment'

export interface PanelLine {
  readonly id: string
  readonly title: string
  readonly question: string
  readonly stage: string
  readonly createdAt: Date
  readonly closedAt: Date | null
  readonly tasters: number
}

const stageWords: Readonly<Record<string, string>> = {
  draft: 'planned, not poured',
  open: 'open',
  closed: 'closed, no decision yet',
  decided: 'decided',
  'called-off': 'called off, nobody tasted',
}

export function PanelLines({ panels, zone }: { panels: readonly PanelLine[]; zone: string }) {
  return (
    <ul className="divide-y divide-line rounded border border-line bg-raised">
      {panels.map((panel) => (
        <li key={panel.id} className="px-4 py-2">
          <p>
            <Link href={`/panels/${panel.id}`} prefetch={false} className="inline-block py-1 font-semibold">
              {panel.title}
            </Link>{' '}
            <span className="text-soft">{panel.question}</span>
          </p>
          <p className="text-s text-soft">
            {stageWords[panel.stage] ?? panel.stage} · {panel.tasters} {panel.tasters === 1 ? 'taster' : 'tasters'} ·{' '}
            <Moment at={panel.closedAt ?? panel.createdAt} zone={zone} day />
          </p>
        </li>
      ))}
    </ul>
  )
}
