import { fixed } from '@/lib/base/number-format'
import { CupMark, PlacedMark } from './cup-mark'
import { percentOf, type Scale } from './plot-scale'

export interface IntervalRow {
  readonly key: string
  /** the cup whose mark is drawn */
  readonly letter: string
  readonly label: string
  readonly value: number
  readonly low: number | null
  readonly high: number | null
  /** how many scores lie at each written value of the scale: the row's own points */
  readonly counts?: readonly number[]
}

interface IntervalPlotProps {
  readonly title: string
  readonly rows: readonly IntervalRow[]
  readonly scale: Scale
  readonly axis: string
  /** dashed lines beside the one at zero */
  readonly margin?: number | null
}

const columns = 'sm:grid sm:grid-cols-[15rem_minmax(0,1fr)] sm:gap-x-4'

/**
 * Values and their intervals on one common scale, as wide as its column. It is drawn before any script runs, and prints.
 * Colour, shape and letter each tell the cups apart; names stand in full beside.
 */
export function IntervalPlot({ title, rows, scale, axis, margin = null }: IntervalPlotProps) {
  const most = Math.max(1, ...rows.flatMap(({ counts }) => counts ?? []))
  return (
    <figure className="max-w-3xl">
      <figcaption className="mb-2 font-semibold">{title}</figcaption>
      <div role="img" aria-label={`${title}. ${rows.map(sayRow).join('; ')}`}>
        {rows.map((row) => (
          <div key={row.key} className={`${columns} border-t border-line py-1 pe-3 ps-2 break-inside-avoid`}>
            <p className="flex items-baseline gap-2 text-s sm:self-center">
              <CupMark letter={row.letter} />
              <span>{row.label}</span>
            </p>
            <Track row={row} scale={scale} margin={margin} most={most} />
          </div>
        ))}
        <div className={`${columns} border-t border-ink pe-3 ps-2`}>
          <span />
          <Axis scale={scale} />
        </div>
      </div>
      <p className="text-s text-soft sm:ms-66">
        {axis}
        {scale.low < 0 && '; the full line is no difference'}
        {margin !== null && ', the dashed ones the margin'}
      </p>
    </figure>
  )
}

const HEIGHT = 36
const MIDDLE = 13
const BARS = 14

function Track({ row, scale, margin, most }: { row: IntervalRow; scale: Scale; margin: number | null; most: number }) {
  const at = (value: number) => `${percentOf(value, scale)}%`
  const height = row.counts ? HEIGHT + 4 : 2 * MIDDLE
  return (
    <svg width="100%" height={height} className="overflow-visible" aria-hidden="true">
      {scale.ticks.map((tick) => (
        <Upright key={tick} x={at(tick)} stroke="var(--line)" />
      ))}
      {scale.low < 0 && <Upright x={at(0)} stroke="var(--ink)" />}
      {margin !== null &&
        [-margin, margin].map((one) => <Upright key={one} x={at(one)} stroke="var(--ink)" dash="4 4" />)}
      {row.counts?.map((count, i) => {
        const tall = (count / most) * BARS
        const tick = scale.ticks[i]
        if (count === 0 || tick === undefined) return null
        return (
          <line
            key={tick}
            x1={at(tick)}
            x2={at(tick)}
            y1={height}
            y2={height - tall}
            stroke="var(--soft-ink)"
            strokeWidth={7}
          />
        )
      })}
      {row.low !== null && row.high !== null && (
        <g stroke="var(--ink)" strokeWidth={2}>
          <line x1={at(row.low)} x2={at(row.high)} y1={MIDDLE} y2={MIDDLE} />
          {[row.low, row.high]
            .filter((end) => end >= scale.low && end <= scale.high)
            .map((end) => (
              <line key={end} x1={at(end)} x2={at(end)} y1={MIDDLE - 5} y2={MIDDLE + 5} />
            ))}
        </g>
      )}
      <PlacedMark letter={row.letter} x={at(row.value)} y={MIDDLE} />
    </svg>
  )
}

function Upright({ x, stroke, dash }: { x: string; stroke: string; dash?: string }) {
  return <line x1={x} x2={x} y1="0" y2="100%" stroke={stroke} strokeDasharray={dash} />
}

function Axis({ scale }: { scale: Scale }) {
  const digits = scale.ticks.every(Number.isInteger) ? 0 : 1
  return (
    <svg width="100%" height={20} className="overflow-visible" aria-hidden="true">
      {scale.ticks.map((tick) => (
        <text key={tick} x={`${percentOf(tick, scale)}%`} y={15} textAnchor="middle" fontSize={13} fill="var(--ink)">
          {fixed(tick, digits)}
        </text>
      ))}
    </svg>
  )
}

function sayRow({ label, value, low, high, counts }: IntervalRow): string {
  const known = low !== null && high !== null ? `${fixed(low, 2)} to ${fixed(high, 2)}` : null
  const sure = known ?? (counts ? `counts ${counts.join(', ')}` : 'no interval')
  return `${label}: ${fixed(value, 2)}, ${sure}`
}
