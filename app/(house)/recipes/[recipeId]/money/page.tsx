import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { recipeMoneyMark } from '@/lib/tasks/opened-with'
import { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { HiddenField, TextField } from '@/app/ui/field'
import { Page } from '@/app/ui/page-frame'
import { changeMoneyAction } from '../../actions'
import { moneyDefaults } from './money-defaults'

export const metadata: Metadata = { title: 'Price and waste' }

export default async function MoneyPage({ params }: { params: Promise<{ recipeId: string }> }) {
  const member = await requireMember('recipe:write')
  const { recipeId } = await params
  const found = await readRecipe(theWorld(), member, recipeId)
  if (!found) notFound()
  const { recipe } = found
  const { currency } = member.cafe
  const field = { inputMode: 'decimal' } as const
  return (
    <Page
      trail={[
        { href: '/recipes', words: 'Recipes' },
        { href: `/recipes/${recipeId}`, words: recipe.name },
      ]}
      title="Price and waste"
    >
      <ActForm
        id="money"
        action={changeMoneyAction.bind(null, recipeId)}
        keep={`money-${recipeId}`}
        opened={recipeMoneyMark(recipe, member.cafe)}
        defaults={moneyDefaults(recipe, member.cafe)}
        submit="Save"
        className="max-w-md"
      >
        <HiddenField name="currency" value={currency} />
        <TextField name="price" label="Menu price, tax included" unit={currency} {...field} />
        <TextField
          name="tax"
          label="Tax inside the menu price"
          unit="%"
          {...field}
          help="VAT or sales tax, as a share of the net price."
        />
        <TextField
          name="targetCost"
          label="Wanted share of cost in the net price"
          unit="%"
          {...field}
          help="20 to 30 % is common practice for café drinks."
        />
        <TextField name="waste" label="Waste" unit="%" {...field} help="Spilled, sent back, thrown away." />
        <TextField name="packaging" label="Packaging beside the vessel’s own" unit={currency} {...field} />
        <TextField
          name="fixed"
          label="Fixed cost to break even on"
          unit={currency}
          {...field}
          help="Rent and wages of the period you count glasses in."
        />
        <TextField
          name="room"
          label="Temperature where the glass stands"
          unit="°C"
          {...field}
          help="25 °C is assumed while this is empty."
        />
      </ActForm>
    </Page>
  )
}
