import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readSheetOffer } from '@/lib/tasks/trial/read-sheet-offer'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { theWorld } from '@/lib/tasks/world'
import { Page } from '@/app/ui/page-frame'
import { ladderAction } from './actions'
import { LadderForms } from './ladder-forms'

export const metadata: Metadata = { title: 'Ladder' }

export default async function LadderPage({ params }: { params: Promise<{ trialId: string }> }) {
  const member = await requireMember('recipe:write')
  const { trialId } = await params
  const sheet = await readTrial(theWorld(), member, trialId)
  if (!sheet) notFound()
  const { trial, build } = sheet
  const offer = await readSheetOffer(theWorld(), member, trial.recipeId, trial)
  return (
    <Page
      trail={[
        { href: `/recipes/${trial.recipeId}`, words: trial.recipe.name },
        { href: `/trials/${trialId}`, words: `Trial ${trial.number}` },
      ]}
      title={`Ladder from trial ${trial.number}`}
      answer="Vary one thing, hold everything else. Each rung becomes a draft of its own."
    >
      <LadderForms
        action={ladderAction.bind(null, trialId, trial.recipeId)}
        lines={build.lines.map((line) => ({
          value: line.key,
          words: `${line.name}, ${line.targetGrams.toFixed(1)} g`,
        }))}
        sweeteners={build.lines
          .filter((line) => line.kind === 'sweetener')
          .map((line) => ({ value: line.key, words: `${line.name}, ${line.targetGrams.toFixed(1)} g` }))}
        parts={offer.parts.map((part) => ({ value: part.ref, words: part.name, kind: part.kind }))}
        hasBrew={build.brew !== null}
      />
    </Page>
  )
}
