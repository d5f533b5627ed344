import { TextField } from '@/app/ui/field'

/** Of three to six cups: how far apart a best cup is that the panel is to find. */
export function RankPlan() {
  return (
    <div className="grid max-w-prose gap-5">
      <p>
        Everybody tastes all of them, in orders that bring each cup to each place equally often, and then taps their
        codes from the one they like best to the one they like least. No two share a place. The question is which is
        liked best: every cup is compared with every other.
      </p>
      <TextField
        name="above"
        label="It is to find a best cup that is put above any other by"
        unit="of 100"
        inputMode="numeric"
        help="Of those who taste both: 75 means three of four. The nearer to 50, the more tasters it takes. To compare with one cup alone, ask of two cups which one: it takes far fewer."
      />
    </div>
  )
}
