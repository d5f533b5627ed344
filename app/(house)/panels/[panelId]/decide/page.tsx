import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readResult } from '@/lib/tasks/result/read-result'
import { readResultGlasses } from '@/lib/tasks/result/read-result-glasses'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { AreaField, ChoiceField, SelectField } from '@/app/ui/field'
import { Page } from '@/app/ui/page-frame'
import { ClaimsSection } from '../result/claims'
import { GlassesSection } from '../result/glasses'
import { decideAction } from './actions'

export const metadata: Metadata = { title: 'Decide' }

export default async function DecidePage({ params }: { params: Promise<{ panelId: string }> }) {
  const member = await requireMember('decide')
  const { panelId } = await params
  const result = await readResult(theWorld(), member, panelId)
  if (!result) redirect(`/panels/${panelId}`)
  const glasses = await readResultGlasses(theWorld(), member, panelId)
  const trials = result.cups.map((cup) => ({
    value: cup.trialId,
    words: `Cup ${cup.letter}: trial ${cup.trialNumber}, ${cup.name}${cup.trialId === result.houseTrialId ? ' (present house recipe)' : ''}`,
  }))
  const kinds = [
    { value: 'adopt', words: 'Adopt a trial as house recipe', help: 'It becomes the next version.' },
    ...(result.houseTrialId ? [{ value: 'keep', words: 'Keep the present house recipe' }] : []),
    { value: 'test-again', words: 'Test again', help: 'The plan can be copied from the panel’s page.' },
  ]
  return (
    <Page
      trail={[
        { href: `/panels/${panelId}`, words: result.title },
        { href: `/panels/${panelId}/result`, words: 'Result' },
      ]}
      title="Decide"
      answer={result.verdict.sentence}
    >
      <ClaimsSection result={result} />
      <GlassesSection result={result} glasses={glasses ?? []} currency={member.cafe.currency} />
      <p className="max-w-prose text-soft">
        The sentence, these intervals, costs and sugars are kept with the decision as they stand now.
      </p>
      <ActForm
        id="decide"
        action={decideAction.bind(null, panelId)}
        opened={result.decisionMark}
        keep={`decide-${panelId}`}
        submit="Decide"
        refused="Not decided"
        className="max-w-lg"
      >
        <ChoiceField name="kind" label="What is decided?" choices={kinds} />
        <SelectField name="trialId" label="Which trial, if one is adopted" none="none" choices={trials} />
        <AreaField name="reason" label="Reason" help="Taste, cost, supply: what would you tell somebody in a year?" />
      </ActForm>
    </Page>
  )
}
