import { CheckField, HiddenField, TextField } from '@/app/ui/field'

export function VesselFields({ currency }: { currency: string }) {
  return (
    <>
      <HiddenField name="currency" value={currency} />
      <TextField name="name" label="Name" required help="“Tall glass”, “takeaway 16 US fl oz”." />
      <TextField name="brim" label="Volume to the brim" unit="ml" inputMode="decimal" />
      <TextField
        name="water"
        label="Or: weight of the water it holds, full to the brim"
        unit="g"
        inputMode="decimal"
        help="Tare it empty, fill it, read the scale. Used when the volume is left empty."
      />
      <TextField name="fill" label="Volume to the fill line" unit="ml" inputMode="decimal" help="If it has one." />
      <TextField
        name="pack"
        label="Cost of one, with lid and straw"
        unit={currency}
        inputMode="decimal"
        help="Leave empty for a glass that comes back."
      />
      <CheckField name="isClear" label="One can see through it" help="Then colour may tell cups apart in a panel." />
    </>
  )
}
