import type { Metadata } from 'next'
import { requireMember } from '@/lib/auth/guard'
import { readDiary } from '@/lib/tasks/house/read-diary'
import { readDiaryFolds } from '@/lib/tasks/house/read-diary-folds'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { Empty, Page } from '@/app/ui/page-frame'
import { once, type Query } from '@/app/ui/query'
import { DiaryLine, DiarySteps } from './diary-parts'

export const metadata: Metadata = { title: 'Diary' }

const answer = 'Who did what, and when. Lines are added, never changed.'

export default async function DiaryPage({ searchParams }: { searchParams: Query }) {
  const member = await requireMember('diary')
  const { before, steps } = await once(searchParams)
  const zone = member.cafe.timeZone
  if (steps !== undefined) {
    const { lines, more } = await readDiary(theWorld(), member, before ?? null)
    const last = lines.at(-1)?.id ?? ''
    return (
      <Page trail={[{ href: '/diary', words: 'Diary' }]} title="Diary, line by line" answer={answer}>
        <ol className="divide-y divide-line">
          {lines.map((line) => (
            <DiaryLine key={line.id} line={line} zone={zone} />
          ))}
        </ol>
        {more && <Earlier href={`/diary?steps=all&before=${last}`} />}
      </Page>
    )
  }
  const { pieces, last, more } = await readDiaryFolds(theWorld(), member, before ?? null)
  return (
    <Page title="Diary" answer={answer}>
      {pieces.length === 0 && <Empty words="Nothing has happened here yet." />}
      <ol className="divide-y divide-line">
        {pieces.map((piece) =>
          piece.kind === 'line' ? (
            <DiaryLine key={piece.line.id} line={piece.line} zone={zone} />
          ) : (
            <DiarySteps key={piece.fold.id} fold={piece.fold} zone={zone} />
          ),
        )}
      </ol>
      {more && <Earlier href={`/diary?before=${last ?? ''}`} />}
    </Page>
  )
}

function Earlier({ href }: { href: string }) {
  return (
    <ButtonLink look="plain" href={href}>
      Earlier
    </ButtonLink>
  )
}
