import type { Metadata } from 'next'
import { openDoor } from '@/lib/auth/guard'
import { readShared } from '@/lib/tasks/result/read-shared'
import { theWorld } from '@/lib/tasks/world'
import { ResultSheet } from '@/app/(house)/panels/[panelId]/result/result-sheet'
import { DemoMark } from '@/app/ui/demo-mark'
import { Door } from '@/app/ui/door'
import { sayDay } from '@/app/ui/moment'
import { Page } from '@/app/ui/page-frame'

export const metadata: Metadata = { title: 'Result' }
export const dynamic = 'force-dynamic'

export default async function ReadPage({ params }: { params: Promise<{ token: string }> }) {
  openDoor('the link to read is the key')
  const { token } = await params
  const shared = await readShared(theWorld(), token)
  if (!shared)
    return <Door title="This link is not open" words="It was withdrawn, or is not whole. Ask for a new one." />
  const { cafe, result, glasses } = shared
  return (
    <Page
      title={result.verdict.sentence}
      answer={
        <span className="text-m">
          {cafe.name}, {result.recipe.name}: {result.question}{' '}
          {result.closedAt && `Closed ${sayDay(result.closedAt, cafe.timeZone)}.`}
          {result.isDemo && <DemoMark />}
        </span>
      }
    >
      <ResultSheet result={result} glasses={glasses} zone={cafe.timeZone} currency={cafe.currency} />
    </Page>
  )
}
