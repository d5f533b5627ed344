import { BAND, columnLevel } from '@/lib/forms/scale-steps'
import { fixed } from '@/lib/base/number-format'

/** A column that fills into its band: the band is hatched and its limits are written, so that no colour has to be told. */
export function Column({
  grams,
  wanted,
  tolerance,
  decimals,
}: {
  readonly grams: number | null
  readonly wanted: number | null
  readonly tolerance: number
  /** that the scale shows */
  readonly decimals: number
}) {
  if (wanted === null) return null
  const level = columnLevel(grams, wanted, tolerance)
  const at = (share: number) => 200 - 190 * share
  const [foot, top] = [at(BAND.foot), at(BAND.top)]
  return (
    <svg
      viewBox="0 0 130 210"
      className="h-52 w-32 shrink-0"
      role="img"
      aria-label={sayColumn(grams, wanted, { tolerance, decimals })}
    >
      <defs>
        <pattern id="band" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line x1="0" y1="0" x2="0" y2="6" stroke="var(--ink)" strokeWidth="1.5" />
        </pattern>
      </defs>
      <rect x="8" y="10" width="52" height="190" fill="var(--raised)" stroke="var(--edge)" />
      <rect x="8" y={at(level)} width="52" height={200 - at(level)} fill="var(--accent)" />
      <rect x="8" y={top} width="52" height={foot - top} fill="url(#band)" fillOpacity="0.5" stroke="var(--ink)" />
      {grams !== null && <line x1="2" x2="66" y1={at(level)} y2={at(level)} stroke="var(--ink)" strokeWidth="4" />}
      <text x="70" y={top + 2} fontSize="14" fill="var(--ink)">
        {fixed(wanted + tolerance, decimals)}
      </text>
      <text x="70" y={foot + 10} fontSize="14" fill="var(--ink)">
        {fixed(wanted - tolerance, decimals)}
      </text>
    </svg>
  )
}

type Shown = { readonly tolerance: number; readonly decimals: number }

function sayColumn(grams: number | null, wanted: number, { tolerance, decimals }: Shown): string {
  const band = `${fixed(wanted - tolerance, decimals)} to ${fixed(wanted + tolerance, decimals)} g`
  if (grams === null) return `Empty; right is ${band}`
  const where = grams < wanted - tolerance ? 'below' : grams > wanted + tolerance ? 'above' : 'inside'
  return `${fixed(grams, decimals)} g, ${where} what is right: ${band}`
}
