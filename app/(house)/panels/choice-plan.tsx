import { CheckField, TextField } from '@/app/ui/field'

/** Of two cups: what may be answered, and what share the panel is to find. */
export function ChoicePlan() {
  return (
    <div className="grid max-w-prose gap-5">
      <p>
        Everybody tastes both, half of them the one first, half the other, and taps the code of the one they like
        better.
      </p>
      <CheckField
        name="mayHaveNone"
        label="“No preference” may be said"
        help="Without it everybody has to choose. Who has none is counted apart, and it takes more tasters for the same answer."
      />
      <TextField
        name="share"
        label="It is to find that one is preferred by"
        unit="of 100"
        inputMode="numeric"
        help="Of those who prefer one: 65 means 65 to 35. The nearer to 50, the more tasters it takes."
      />
    </div>
  )
}
