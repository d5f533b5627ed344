import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readTasters } from '@/lib/tasks/privacy/read-kept'
import { theWorld } from '@/lib/tasks/world'
import { Empty, Page } from '@/app/ui/page-frame'
import { panelTrail } from '../../panel-words'

export const metadata: Metadata = { title: 'Tasters' }

export default async function TastersPage({ params }: { params: Promise<{ panelId: string }> }) {
  const member = await requireMember('panel:run')
  const { panelId } = await params
  const panel = await readTasters(theWorld(), member, panelId)
  if (!panel) notFound()
  return (
    <Page
      trail={panelTrail({ id: panelId, title: panel.title })}
      title="Tasters"
      answer="Whoever tasted here may see what is kept of them, and have their name taken out. What they scored stays."
    >
      {panel.tasters.length === 0 ? (
        <Empty words="Nobody has taken a seat." />
      ) : (
        <ul className="max-w-prose divide-y divide-line">
          {panel.tasters.map(({ seat, name }) => (
            <li key={seat}>
              <Link href={`/panels/${panelId}/tasters/${seat}`} prefetch={false} className="inline-block py-3">
                Seat {seat}: {name ?? 'name taken out'}
              </Link>
            </li>
          ))}
        </ul>
      )}
    </Page>
  )
}
