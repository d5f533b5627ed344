import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { namedByPreparation } from '@/lib/tasks/trial/todays-batches'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { Page } from '@/app/ui/page-frame'
import { PastBatches } from '@/app/ui/past-batches'
import { TodaysBatches } from '@/app/ui/todays-batches'
import { openToWhoServes } from '../../../open-to-who-serves'
import { ScaleSteps } from './scale-steps'

export const metadata: Metadata = { title: 'Beside the scale' }

export default async function ScalePage({ params }: { params: Promise<{ trialId: string }> }) {
  const member = await requireMember('recipe:read')
  const { trialId } = await params
  await openToWhoServes(member, { trialId })
  const sheet = await readTrial(theWorld(), member, trialId)
  if (!sheet) notFound()
  return (
    <Page
      trail={[{ href: `/trials/${trialId}`, words: `Trial ${sheet.trial.number}` }]}
      act={
        <ButtonLink look="plain" href={`/trials/${trialId}/built`}>
          Who built it
        </ButtonLink>
      }
      title={`Beside the scale: ${sheet.trial.name}`}
    >
      <PastBatches past={sheet.past} undated={sheet.undated} zone={member.cafe.timeZone} />
      <TodaysBatches todays={sheet.todays} zone={member.cafe.timeZone} />
      <ScaleSteps
        trialId={trialId}
        build={namedByPreparation(sheet.build)}
        today={sheet.forToday}
        cautions={sheet.figures.cautions}
        keptAt={canDo(member, 'recipe:write') ? `/trials/${trialId}/weighings` : null}
      />
    </Page>
  )
}
