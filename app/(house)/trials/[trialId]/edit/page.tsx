import type { Metadata } from 'next'
import { notFound, redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { allergenChoices } from '@/lib/forms/ingredient-form'
import { trialMark } from '@/lib/tasks/opened-with'
import { readSheetOffer } from '@/lib/tasks/trial/read-sheet-offer'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { theWorld } from '@/lib/tasks/world'
import { Page } from '@/app/ui/page-frame'
import { changeTrialAction } from '../../actions'
import { SheetEditor } from './sheet-editor'
import { groundOf, sheetDefaults } from './sheet-defaults'

export const metadata: Metadata = { title: 'Edit the sheet' }

export default async function EditTrialPage({ params }: { params: Promise<{ trialId: string }> }) {
  const member = await requireMember('recipe:write')
  const { trialId } = await params
  const sheet = await readTrial(theWorld(), member, trialId)
  if (!sheet) notFound()
  if (sheet.trial.frozenAt) redirect(`/trials/${trialId}/vary`)
  const offer = await readSheetOffer(theWorld(), member, sheet.trial.recipeId, sheet.trial)
  return (
    <Page
      trail={[
        { href: `/recipes/${sheet.trial.recipeId}`, words: sheet.trial.recipe.name },
        { href: `/trials/${trialId}`, words: `Trial ${sheet.trial.number}` },
      ]}
      title={`Sheet of trial ${sheet.trial.number}`}
    >
      <SheetEditor
        keep={`trial-${trialId}`}
        action={changeTrialAction.bind(null, trialId)}
        opened={trialMark(sheet.trial)}
        defaults={sheetDefaults(sheet, offer)}
        ground={groundOf(sheet, offer, member.cafe)}
        levels={offer.levels}
        currency={member.cafe.currency}
        allergens={allergenChoices(member.cafe.allergenList).allergens}
      />
    </Page>
  )
}
