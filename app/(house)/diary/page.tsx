import type { Metadata } from 'next'
import Link from 'next/link'
import { requireMember } from '@/lib/auth/guard'
import { readDiary, type DiaryEntry } from '@/lib/tasks/house/read-diary'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { Empty, Page } from '@/app/ui/page-frame'
import { Moment } from '@/app/ui/moment'
import { once, type Query } from '@/app/ui/query'
import { pageOfSubject, sayAct } from './say-act'

export const metadata: Metadata = { title: 'Diary' }

export default async function DiaryPage({ searchParams }: { searchParams: Query }) {
  const member = await requireMember('diary')
  const { before } = await once(searchParams)
  const { lines, more } = await readDiary(theWorld(), member, before ?? null)
  return (
    <Page title="Diary" answer="Who did what, and when. Lines are added, never changed.">
      {lines.length === 0 ? (
        <Empty words="Nothing has happened here yet." />
      ) : (
        <ol className="divide-y divide-line">
          {lines.map((entry) => (
            <li key={entry.id} className="flex flex-wrap gap-x-4 py-2">
              <Moment at={entry.at} zone={member.cafe.timeZone} className="w-40 text-soft" />
              <span>
                {sayAct(entry)}
                <SubjectLink entry={entry} />
              </span>
            </li>
          ))}
        </ol>
      )}
      {more && (
        <ButtonLink look="plain" href={`/diary?before=${lines.at(-1)?.id ?? ''}`}>
          Earlier
        </ButtonLink>
      )}
    </Page>
  )
}

function SubjectLink({ entry }: { entry: DiaryEntry }) {
  const page = pageOfSubject(entry)
  if (page === null) return null
  return (
    <>
      {' · '}
      <Link href={page} prefetch={false}>
        {entry.subject?.name}
      </Link>
    </>
  )
}
