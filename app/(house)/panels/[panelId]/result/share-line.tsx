import { fixed } from '@/lib/base/number-format'
import { HUNDRED, percentOf } from '@/app/ui/plot-scale'

interface ShareLineProps {
  readonly title: string
  readonly axis: string
  /** percent, as the ends */
  readonly value: number
  readonly low: number | null
  readonly high: number | null
  /** a bound, dashed */
  readonly bound: number | null
}

const MIDDLE = 14
const at = (value: number) => `${percentOf(value, HUNDRED)}%`

/** One share of a hundred with its interval, drawn before any script runs; it prints, and below nothing it ends at 0. */
export function ShareLine({ title, axis, value, low, high, bound }: ShareLineProps) {
  const sure = low === null || high === null ? 'no interval' : `${fixed(low, 0)} to ${fixed(high, 0)}`
  return (
    <figure className="mb-3 max-w-xl">
      <figcaption className="mb-2 font-semibold">{title}</figcaption>
      <div
        role="img"
        aria-label={`${title}: ${fixed(value, 0)}, ${sure}${bound === null ? '' : `; the bound is ${fixed(bound, 0)}`}`}
        className="px-4"
      >
        <svg width="100%" height={2 * MIDDLE} className="overflow-visible" aria-hidden="true">
          {HUNDRED.ticks.map((tick) => (
            <line key={tick} x1={at(tick)} x2={at(tick)} y1="0" y2="100%" stroke="var(--line)" />
          ))}
          {bound !== null && (
            <line x1={at(bound)} x2={at(bound)} y1="0" y2="100%" stroke="var(--ink)" strokeDasharray="4 4" />
          )}
          {low !== null && high !== null && (
            <line x1={at(low)} x2={at(high)} y1={MIDDLE} y2={MIDDLE} stroke="var(--ink)" strokeWidth={2} />
          )}
          {low !== null &&
            high !== null &&
            [low, high].map((end) => (
              <line
                key={end}
                x1={at(end)}
                x2={at(end)}
                y1={MIDDLE - 5}
                y2={MIDDLE + 5}
                stroke="var(--ink)"
                strokeWidth={2}
              />
            ))}
          <circle cx={at(value)} cy={MIDDLE} r={6} fill="var(--accent)" stroke="var(--ink)" />
        </svg>
        <svg width="100%" height={20} className="overflow-visible border-t border-ink" aria-hidden="true">
          {HUNDRED.ticks.map((tick) => (
            <text key={tick} x={at(tick)} y={15} textAnchor="middle" fontSize={13} fill="var(--ink)">
              {tick}
            </text>
          ))}
        </svg>
      </div>
      <p className="text-s text-soft">{axis}</p>
    </figure>
  )
}
