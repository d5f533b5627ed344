import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { allergenChoices } from '@/lib/forms/ingredient-form'
import { ingredientMark } from '@/lib/tasks/opened-with'
import { readIngredient } from '@/lib/tasks/store/read-ingredient'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { Page } from '@/app/ui/page-frame'
import { correctIngredientAction } from '../../../actions'
import { storeTrail } from '../../../say-store'
import { IngredientFields } from '../../ingredient-fields'
import { ingredientDefaults } from '../ingredient-defaults'

export const metadata: Metadata = { title: 'Correct an ingredient' }

export default async function EditIngredientPage({ params }: { params: Promise<{ ingredientId: string }> }) {
  const member = await requireMember('recipe:write')
  const { ingredientId } = await params
  const card = await readIngredient(theWorld(), member, ingredientId)
  if (!card) notFound()
  const { allergens, source } = allergenChoices(member.cafe.allergenList)
  return (
    <Page
      trail={[storeTrail, { href: `/store/ingredients/${ingredientId}`, words: card.row.name }]}
      title={`Correct ${card.row.name}`}
      answer="The label in the hand wins over any table. Figures of trials that were poured stay as they were that day."
    >
      <ActForm
        id="ingredient"
        action={correctIngredientAction.bind(null, ingredientId)}
        keep={`ingredient-${ingredientId}`}
        submit="Save"
        opened={ingredientMark(card.row)}
        defaults={ingredientDefaults(card)}
        className="max-w-3xl"
      >
        <IngredientFields allergens={allergens} source={source} />
      </ActForm>
    </Page>
  )
}
