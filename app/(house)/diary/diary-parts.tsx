import Link from 'next/link'
import type { DiaryEntry } from '@/lib/tasks/house/diary-lines'
import type { DiaryFold } from '@/lib/tasks/house/read-diary-folds'
import { Moment } from '@/app/ui/moment'
import { pageOfSubject, sayAct, sayBetween, saySteps } from './say-act'

export function DiaryLine({ line, zone }: { line: DiaryEntry; zone: string }) {
  return (
    <li className="flex flex-wrap gap-x-4 py-2">
      <Moment at={line.at} zone={zone} className="w-40 text-soft" />
      <span className="min-w-0 flex-1 basis-64 break-words">
        {sayAct(line)}
        <SubjectLink entry={line} />
      </span>
    </li>
  )
}

/** What tasters did at one panel, in one line that opens. */
export function DiarySteps({ fold, zone }: { fold: DiaryFold; zone: string }) {
  const { panel, steps, lines, below } = fold
  const from = below === null ? '' : `&before=${below}`
  return (
    <li className="flex flex-wrap gap-x-4 py-2">
      <Moment at={fold.to} zone={zone} className="w-40 text-soft" />
      <details className="min-w-0 flex-1 basis-64">
        <summary className="min-h-6 break-words">
          {saySteps(fold)} {panel && `${panel.title}, `}
          {sayBetween(fold, zone)}
        </summary>
        <ol className="mt-1 divide-y divide-line border-s-2 border-line ps-3 text-s">
          {lines.map((line) => (
            <DiaryLine key={line.id} line={line} zone={zone} />
          ))}
        </ol>
        <p className="mt-1 flex flex-wrap gap-x-4 ps-3 text-s">
          {steps > lines.length && (
            <Link className="inline-block py-1" href={`/diary?steps=all${from}`} prefetch={false}>
              All {steps}, line by line
            </Link>
          )}
          {panel && (
            <Link className="inline-block py-1" href={`/panels/${panel.id}`} prefetch={false}>
              {panel.title}
            </Link>
          )}
        </p>
      </details>
    </li>
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
