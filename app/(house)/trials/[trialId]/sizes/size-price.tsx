import Link from 'next/link'
import type { Currency } from '@/lib/forms/fields'
import { sizePriceMark } from '@/lib/tasks/opened-with'
import type { Size } from '@/lib/tasks/trial/read-sizes'
import { ActForm } from '@/app/ui/act-form'
import { HiddenField, TextField } from '@/app/ui/field'
import { sizePriceAction } from './actions'
import { sizePriceDefaults } from './size-price-defaults'

interface Props {
  readonly size: Size
  readonly trialId: string
  readonly recipeId: string
  readonly cafe: Currency
}

/** What this size sells for, where that can be kept; else where it is. */
export function SizePrice({ size: { vessel, usual, priced }, trialId, recipeId, cafe }: Props) {
  if (!priced && usual === null)
    return (
      <p className="screen-only text-s text-soft">
        <Link href={`/recipes/${recipeId}/money`} prefetch={false}>
          Sells at the recipe’s own price
        </Link>
      </p>
    )
  const { vesselId, priceMinor } = priced ?? { vesselId: `usual-${usual}`, priceMinor: null }
  return (
    <div className="screen-only">
      <ActForm
        id={`size-${vesselId}`}
        action={sizePriceAction.bind(null, trialId, vesselId)}
        opened={sizePriceMark(priceMinor, cafe)}
        defaults={sizePriceDefaults(priceMinor, cafe)}
        submit="Keep this price"
        submitLook="plain"
        className="max-w-md"
      >
        <HiddenField name="currency" value={cafe.currency} />
        <TextField
          name="price"
          label={`Menu price in ${vessel.name}, tax included`}
          unit={cafe.currency}
          inputMode="decimal"
          help={usual === null ? 'Empty: this size is not sold.' : 'The cup is entered in the store with it.'}
        />
      </ActForm>
    </div>
  )
}
