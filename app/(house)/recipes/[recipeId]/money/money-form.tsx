import { recipeMoneyMark } from '@/lib/tasks/opened-with'
import { ActForm } from '@/app/ui/act-form'
import { HiddenField, TextField } from '@/app/ui/field'
import { changeMoneyAction } from '../../actions'
import { moneyDefaults } from './money-defaults'

type Recipe = Parameters<typeof recipeMoneyMark>[0] & Parameters<typeof moneyDefaults>[0] & { readonly id: string }
type Cafe = Parameters<typeof recipeMoneyMark>[1] & Parameters<typeof moneyDefaults>[1]

export function MoneyForm({ recipe, cafe }: { recipe: Recipe; cafe: Cafe }) {
  const { currency } = cafe
  const field = { inputMode: 'decimal' } as const
  return (
    <ActForm
      id="money"
      action={changeMoneyAction.bind(null, recipe.id)}
      keep={`money-${recipe.id}`}
      opened={recipeMoneyMark(recipe, cafe)}
      defaults={moneyDefaults(recipe, cafe)}
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
      <TextField
        name="waste"
        label="Waste, added to ingredients"
        unit="%"
        {...field}
        help="Spilled, sent back, thrown away. 5 % makes ingredients of 1.00 cost 1.05."
      />
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
  )
}
