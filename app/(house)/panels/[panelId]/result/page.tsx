import type { Metadata } from 'next'
import Link from 'next/link'
import { redirect } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readResult } from '@/lib/tasks/result/read-result'
import { readMemory } from '@/lib/tasks/result/read-memory'
import { readReproduced } from '@/lib/tasks/result/read-reproduced'
import { readResultGlasses } from '@/lib/tasks/result/read-result-glasses'
import { listShared } from '@/lib/tasks/result/share-result'
import { theWorld } from '@/lib/tasks/world'
import { Fold, Page, Section } from '@/app/ui/page-frame'
import { DemoMark } from '@/app/ui/demo-mark'
import { sayDay } from '@/app/ui/moment'
import { Corrections } from './corrections'
import { Aspects, Comments, MissingLines } from './evidence'
import { ClaimsSection, OtherPairs } from './claims'
import { GlassesSection } from './glasses'
import { MemorySection } from './memory'
import { MeansSection, SpreadTable } from './numbers'
import { SharePart } from './share-part'
import { TakeAway } from './take-away'
import { DecideLink, DecisionsMade, HowFound, Method, VerdictNumbers } from './verdict-parts'

export const metadata: Metadata = { title: 'Result' }

export default async function ResultPage({ params }: { params: Promise<{ panelId: string }> }) {
  const member = await requireMember('panel:read')
  const { panelId } = await params
  const result = await readResult(theWorld(), member, panelId)
  if (!result) redirect(`/panels/${panelId}`)
  const [glasses, again, memory, shared] = await Promise.all([
    readResultGlasses(theWorld(), member, panelId),
    readReproduced(theWorld(), member, panelId),
    readMemory(theWorld(), member, panelId),
    listShared(theWorld(), member, panelId),
  ])
  const here = `/panels/${panelId}`
  const zone = member.cafe.timeZone
  const links = shared.map(({ id, createdAt, by }) => ({ id, words: `Made by ${by}, ${sayDay(createdAt, zone)}` }))
  return (
    <Page
      trail={[
        { href: `/recipes/${result.recipe.id}`, words: result.recipe.name },
        { href: here, words: result.title },
      ]}
      title={result.verdict.sentence}
      answer={
        <span className="text-m">
          {result.question} {result.closedAt && `Closed ${sayDay(result.closedAt, zone)}.`}
          {result.isDemo && <DemoMark />}
        </span>
      }
      act={
        <>
          {canDo(member, 'decide') && <DecideLink here={here} decided={result.decisions.length > 0} />}
          {result.decisions.length === 0 && <span className="text-soft">{result.verdict.next}</span>}
        </>
      }
    >
      <DecisionsMade result={result} zone={zone} />
      <VerdictNumbers result={result} />
      <HowFound result={result} zone={zone} />
      <ClaimsSection result={result} />
      <GlassesSection result={result} glasses={glasses ?? []} currency={member.cafe.currency} />
      <MemorySection pairs={memory ?? []} zone={zone} here={panelId} />
      <MeansSection result={result} />
      <OtherPairs result={result} />
      <Section title="How the scores are spread">
        <SpreadTable result={result} />
      </Section>
      <Aspects result={result} />
      <Section title="What tasters wrote">
        <Comments result={result} />
      </Section>
      <Section title="What is missing">
        <MissingLines result={result} zone={zone} />
      </Section>
      <Corrections result={result} zone={zone} />
      <Fold words="How this was computed, and how far to trust it">
        <Method result={result} />
      </Fold>
      <Section title="Paper, and links to read">
        <p>
          <Link href={`${here}/sheet`} prefetch={false}>
            A page to print
          </Link>
        </p>
        {canDo(member, 'decide') && <SharePart panelId={panelId} links={links} />}
      </Section>
      {canDo(member, 'export') && <TakeAway here={here} command={again?.command ?? null} />}
    </Page>
  )
}
