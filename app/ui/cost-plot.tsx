import { coins, fixed } from '@/lib/base/number-format'
import { PlacedMark } from './cup-mark'
import { NINE, percentOf, scaleOf } from './plot-scale'

export interface CostPoint {
  readonly letter: string
  readonly name: string
  readonly cost: number
  readonly liking: number
  readonly low: number | null
  readonly high: number | null
}

const TALL = 220

/** Liking against what a glass costs: further up is liked better, further left is cheaper. Drawn before any script, and prints. */
export function CostPlot({ points, currency }: { points: readonly CostPoint[]; currency: string }) {
  const across = scaleOf(points.map(({ cost }) => cost))
  const x = (cost: number) => `${percentOf(cost, across)}%`
  const y = (liking: number) => TALL - (percentOf(liking, NINE) / 100) * TALL
  const digits = Math.min(3, Math.max(0, Math.ceil(-Math.log10((across.high - across.low) / 10))))
  return (
    <figure className="max-w-3xl">
      <figcaption className="mb-2 font-semibold">Liking against the cost of a glass</figcaption>
      <div role="img" aria-label={`Liking against the cost of a glass. ${points.map(sayPoint(currency)).join('; ')}`}>
        <svg width="100%" height={TALL + 28} className="overflow-visible px-6" aria-hidden="true">
          {NINE.ticks.map((tick) => (
            <g key={tick}>
              <line x1="0%" x2="100%" y1={y(tick)} y2={y(tick)} stroke="var(--line)" />
              <text x="0%" dx={-8} y={y(tick) + 4} textAnchor="end" fontSize={13} fill="var(--ink)">
                {tick}
              </text>
            </g>
          ))}
          <line x1="0%" x2="100%" y1={TALL} y2={TALL} stroke="var(--ink)" />
          {across.ticks.map((tick) => (
            <text key={tick} x={x(tick)} y={TALL + 18} textAnchor="middle" fontSize={13} fill="var(--ink)">
              {fixed(tick, digits)}
            </text>
          ))}
          {points.map((point) => (
            <g key={point.letter}>
              {point.low !== null && point.high !== null && (
                <line
                  x1={x(point.cost)}
                  x2={x(point.cost)}
                  y1={y(point.low)}
                  y2={y(point.high)}
                  stroke="var(--ink)"
                  strokeWidth={2}
                />
              )}
              <PlacedMark letter={point.letter} x={x(point.cost)} y={y(point.liking)} />
              <text
                x={x(point.cost)}
                dx={14}
                y={y(point.liking) + 5}
                fontSize={14}
                fontWeight={600}
                fill="var(--ink)"
                stroke="var(--paper)"
                strokeWidth={3}
                paintOrder="stroke"
              >
                {point.letter}
              </text>
            </g>
          ))}
        </svg>
      </div>
      <p className="text-s text-soft">
        Upwards liking with its 95 % interval, to the right what a glass costs ({currency}, prices of the day it was
        poured).
      </p>
    </figure>
  )
}

const sayPoint = (currency: string) => (point: CostPoint) =>
  `${point.letter} ${point.name}: ${fixed(point.liking, 1)} for ${coins(point.cost, currency)} ${currency}`
