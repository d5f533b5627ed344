import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readInstead } from '@/lib/tasks/trial/read-instead'
import { theWorld } from '@/lib/tasks/world'
import { Page } from '@/app/ui/page-frame'
import { makeInsteadAction } from './actions'
import { Proposal } from './proposal'
import { sayInstead } from './say-instead'

export const metadata: Metadata = { title: 'Instead of' }

export default async function InsteadPage({ params }: { params: Promise<{ trialId: string; lineKey: string }> }) {
  const member = await requireMember('recipe:read')
  const { trialId, lineKey } = await params
  const instead = await readInstead(theWorld(), member, trialId, lineKey)
  if (!instead) notFound()
  const { trial, line, proposals, further, blendedUpTo, unlike } = instead
  const action = canDo(member, 'recipe:write') ? makeInsteadAction.bind(null, trialId, lineKey) : null
  return (
    <Page
      trail={[{ href: `/trials/${trialId}`, words: `Trial ${trial.number}` }]}
      title={`Instead of ${line.name}, ${line.targetGrams.toFixed(1)} g`}
      answer={sayInstead(instead)}
    >
      {proposals.map((proposal, place) => (
        <Proposal
          key={proposal.key}
          proposal={proposal}
          place={place + 1}
          line={line}
          currency={member.cafe.currency}
          action={action}
        />
      ))}
      {(further > 0 || blendedUpTo < 3 || unlike.length > 0) && (
        <div className="grid max-w-prose gap-2 text-soft">
          {further > 0 && <p>{further} further away are not shown.</p>}
          {blendedUpTo < 3 && (
            <p>
              So many things are of this kind that blends of {blendedUpTo === 2 ? 'three' : 'several'} were not tried.
            </p>
          )}
          {unlike.length > 0 && <p>With nothing to compare by: {unlike.join(', ')}. Enter what their labels say.</p>}
        </div>
      )}
    </Page>
  )
}
