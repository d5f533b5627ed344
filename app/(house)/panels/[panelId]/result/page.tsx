import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readResult } from '@/lib/tasks/result/read-result'
import { theWorld } from '@/lib/tasks/world'
import { Fold, Page, Section } from '@/app/ui/page-frame'
import { DemoMark } from '@/app/ui/demo-mark'
import { sayDay } from '@/app/ui/moment'
import { Corrections } from './corrections'
import { Aspects, Comments, MissingLines } from './evidence'
import { MeansSection, PairsSection, SpreadTable } from './numbers'
import { DecideLink, DecisionsMade, HowFound, Method, VerdictNumbers } from './verdict-parts'

export const metadata: Metadata = { title: 'Result' }

export default async function ResultPage({ params }: { params: Promise<{ panelId: string }> }) {
  const member = await requireMember('panel:read')
  const { panelId } = await params
  const result = await readResult(theWorld(), member, panelId)
  if (!result) redirect(`/panels/${panelId}`)
  const here = `/panels/${panelId}`
  const zone = member.cafe.timeZone
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
      <MeansSection result={result} />
      <PairsSection result={result} />
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
      {canDo(member, 'export') && (
        <Section title="Take the data away">
          <ul className="grid gap-1">
            <li>
              <a href={`${here}/export/scores`} download>
                Scores as CSV, one line per answer
              </a>
            </li>
            <li>
              <a href={`${here}/export/columns`} download>
                What each column means
              </a>
            </li>
            <li>
              <a href={`${here}/export/panel`} download>
                The whole panel as JSON
              </a>
            </li>
          </ul>
        </Section>
      )}
    </Page>
  )
}
