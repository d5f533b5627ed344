import Link from 'next/link'
import type { SharedLink } from '@/lib/tasks/result/share-result'
import { sayDay } from '@/app/ui/moment'
import { Section } from '@/app/ui/page-frame'
import { phoneAddress } from '../../phone-address'
import { SharePart } from './share-part'

/** @param shared  the links that are open; null for who may not make any */
export async function PaperAndLinks({
  panelId,
  shared,
  zone,
}: {
  panelId: string
  shared: readonly SharedLink[] | null
  zone: string
}) {
  const links = shared?.map(({ id, createdAt, by }) => ({ id, words: `Made by ${by}, ${sayDay(createdAt, zone)}` }))
  return (
    <Section title="Paper, and links to read">
      <p>
        <Link href={`/panels/${panelId}/sheet`} prefetch={false}>
          A page to print
        </Link>
      </p>
      {links && <SharePart panelId={panelId} house={(await phoneAddress()).address} links={links} />}
    </Section>
  )
}
