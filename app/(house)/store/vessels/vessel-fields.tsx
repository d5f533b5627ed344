import { CheckField, HiddenField, TextField } from '@/app/ui/field'
import { Fold } from '@/app/ui/page-frame'

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
      <Fold words="How much warmth it lets in, by your own ice">
        <div className="grid gap-4">
          <p className="text-s text-soft">
            Fill it with ice from a wet bin and a little ice water, pour off the water after two minutes and weigh it.
            Wait, pour off and weigh what has melted since.
          </p>
          <TextField name="melted" label="Melted since" unit="g" inputMode="decimal" />
          <TextField name="minutes" label="After" unit="min" inputMode="decimal" />
          <TextField name="room" label="Room" unit="°C" inputMode="decimal" />
          <TextField
            name="leak"
            label="Or: the warmth it lets in"
            unit="W/°C"
            inputMode="decimal"
            help="0.35 is assumed while nothing is measured. Used when the three above are left empty."
          />
        </div>
      </Fold>
    </>
  )
}
