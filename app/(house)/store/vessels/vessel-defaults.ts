import type { Currency } from '@/lib/forms/fields'
import { HEAT_LEAK, moneyField, printed, THOUSANDTHS } from '@/lib/forms/number-fields'
import type { readVessel } from '@/lib/tasks/store/read-vessel'

type Vessel = NonNullable<Awaited<ReturnType<typeof readVessel>>>

/** A vessel as its form fields hold it. */
export function vesselDefaults(
  { name, brimUl, fillUl, packMinor, isClear, leakMilli }: Vessel,
  { currencyDigits }: Currency,
) {
  return {
    name,
    brim: printed(brimUl / 1000, THOUSANDTHS),
    fill: printed(fillUl === null ? null : fillUl / 1000, THOUSANDTHS),
    pack: printed(packMinor === null ? null : packMinor / 10 ** currencyDigits, moneyField(currencyDigits)),
    leak: printed(leakMilli === null ? null : leakMilli / 1000, HEAT_LEAK),
    isClear: isClear ? 'on' : undefined,
  }
}
