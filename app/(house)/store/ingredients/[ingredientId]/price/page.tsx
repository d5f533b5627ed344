import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { printTyped } from '@/lib/forms/number-fields'
import { unitChoices } from '@/lib/forms/unit-choices'
import { readIngredient } from '@/lib/tasks/store/read-ingredient'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { HiddenField, SelectField, TextField } from '@/app/ui/field'
import { Page } from '@/app/ui/page-frame'
import { addPriceAction } from '../../../actions'
import { storeTrail } from '../../../say-store'

export const metadata: Metadata = { title: 'Add a price' }

export default async function PricePage({ params }: { params: Promise<{ ingredientId: string }> }) {
  const member = await requireMember('recipe:write')
  const { ingredientId } = await params
  const card = await readIngredient(theWorld(), member, ingredientId)
  if (!card) notFound()
  const last = card.prices.find((price) => price.counts)
  return (
    <Page
      trail={[storeTrail, { href: `/store/ingredients/${ingredientId}`, words: card.row.name }]}
      title={`A price of ${card.row.name}`}
      answer="Prices are added, never changed: what a glass cost last spring can still be read."
    >
      <ActForm
        id="price"
        action={addPriceAction.bind(null, ingredientId)}
        submit="Add the price"
        defaults={{ pack: last && printTyped(last.packTyped), packUnit: last?.packUnit ?? 'g', usable: '100' }}
        className="max-w-md"
      >
        <HiddenField name="currency" value={member.cafe.currency} />
        <TextField name="price" label="Price of one pack" unit={member.cafe.currency} inputMode="decimal" required />
        <div className="grid grid-cols-[1fr_9rem] items-start gap-4">
          <TextField name="pack" label="What is in it" inputMode="decimal" required />
          <SelectField name="packUnit" label="Unit" choices={unitChoices} />
        </div>
        <TextField
          name="usable"
          label="Usable share"
          unit="%"
          inputMode="decimal"
          help="What is left after peel, foam and the rest in the tin."
        />
        <TextField name="since" label="Since" type="date" help="Today while this is empty; never a day to come." />
        <TextField name="note" label="Note" help="Supplier, lot, offer." />
      </ActForm>
    </Page>
  )
}
