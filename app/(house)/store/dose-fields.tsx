import { TextField } from '@/app/ui/field'

/** What the house measured of its own pump and teaspoon: no table knows either. */
export function DoseFields() {
  return (
    <>
      <TextField
        name="pump"
        label="One press of its pump"
        unit="ml"
        inputMode="decimal"
        help="Ten presses on the scale: grams divided by ten, and by its density. Empty: not measured."
      />
      <TextField
        name="spoon"
        label="A level teaspoon of it"
        unit="g"
        inputMode="decimal"
        help="Weigh ten and divide by ten. Empty: home measures stay in grams."
      />
    </>
  )
}
