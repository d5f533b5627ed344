import type { Metadata } from 'next'
import { requireMember } from '@/lib/auth/guard'
import { allergenChoices } from '@/lib/forms/ingredient-form'
import { ActForm } from '@/app/ui/act-form'
import { Page } from '@/app/ui/page-frame'
import { enterIngredientAction } from '../../actions'
import { storeTrail } from '../../say-store'
import { IngredientFields } from '../ingredient-fields'

export const metadata: Metadata = { title: 'Enter an ingredient' }

export default async function NewIngredientPage() {
  const member = await requireMember('recipe:write')
  const { allergens, source } = allergenChoices(member.cafe.allergenList)
  return (
    <Page
      trail={[storeTrail]}
      title="Enter an ingredient"
      answer="With the pack in your hand: a name is enough to start, what is not known stays not known."
    >
      <ActForm
        id="ingredient"
        action={enterIngredientAction}
        keep="ingredient-new"
        submit="Enter it"
        defaults={{ form: 'liquid', source: 'label' }}
        className="max-w-3xl"
      >
        <IngredientFields allergens={allergens} source={source} />
      </ActForm>
    </Page>
  )
}
