import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { allergenChoices } from '@/lib/forms/ingredient-form'
import { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { readSheetOffer } from '@/lib/tasks/trial/read-sheet-offer'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { Page } from '@/app/ui/page-frame'
import { partChoice } from '@/app/ui/part-choice'
import { localRules, Notice } from '@/app/ui/notice'
import { firstTrialAction } from '../../actions'
import { FirstTrialFields } from './first-trial-fields'

export const metadata: Metadata = { title: 'A trial' }

export default async function FirstTrialPage({ params }: { params: Promise<{ recipeId: string }> }) {
  const member = await requireMember('recipe:write')
  const { recipeId } = await params
  const found = await readRecipe(theWorld(), member, recipeId)
  if (!found) notFound()
  const { parts } = await readSheetOffer(theWorld(), member, recipeId)
  return (
    <Page
      trail={[
        { href: '/recipes', words: 'Recipes' },
        { href: `/recipes/${recipeId}`, words: found.recipe.name },
      ]}
      title={found.trials.length === 0 ? 'The first trial' : 'Another trial from scratch'}
      answer="A few fields and a minute. Everything else can be added on its sheet."
    >
      <ActForm
        id="first-trial"
        action={firstTrialAction.bind(null, recipeId)}
        keep={`first-trial-${recipeId}`}
        defaults={{
          method: 'plunger-pot',
          waterUnit: 'g',
          iceUnit: 'g',
          lines: [{ unit: 'g' }, { unit: 'g' }, { unit: 'ml' }],
        }}
        submit="Record this trial"
        className="max-w-md"
      >
        <FirstTrialFields
          parts={parts.map(partChoice)}
          asked={{ currency: member.cafe.currency, allergens: allergenChoices(member.cafe.allergenList).allergens }}
        />
      </ActForm>
      <Notice look="caution">
        Hot brew and hot syrup burn; keep milk at 5 °C or colder until it is poured. {localRules}
      </Notice>
    </Page>
  )
}
