import type { BuildFigures } from '@/lib/drink/trial'
import { fixed } from '@/lib/base/number-format'
import { fillOf, Patterns } from './patterns'

const WIDE = 264
/** g of free sugars a day, WHO 2015: under 10 % of energy at 2000 kcal, better under 5 % */
const [BETTER, MOST] = [25, 50]

/** Free sugars of one glass on the scale of what is advised for a whole day. What is not known is hatched, and is more. */
export function SugarBar({ figures: { freeSugars, sugarSources } }: { figures: BuildFigures }) {
  const known = freeSugars.known ? freeSugars.value : sugarSources.reduce((all, { free }) => all + (free ?? 0), 0)
  const reach = Math.max(MOST, known * 1.1)
  const x = (grams: number) => (WIDE * grams) / reach
  const said = freeSugars.known
    ? `${fixed(known, 1)} g in this glass`
    : `At least ${fixed(known, 1)} g in this glass; more is possible: ${freeSugars.missing.join('; ')}`
  return (
    <>
      <svg
        viewBox={`-1 0 ${WIDE + 2} 46`}
        className="w-full max-w-sm"
        role="img"
        aria-label={`${said}; most advised a day ${MOST} g, better ${BETTER} g`}
      >
        <Patterns prefix="sugar" />
        <rect width={WIDE} height={16} y={4} fill="var(--paper)" stroke="var(--edge)" strokeWidth={0.8} />
        <rect
          width={x(known)}
          height={16}
          y={4}
          fill={fillOf('sugar', 'sweetener')}
          stroke="var(--ink)"
          strokeWidth={0.8}
        />
        {!freeSugars.known && (
          <rect
            x={x(known)}
            width={WIDE - x(known)}
            height={16}
            y={4}
            fill={fillOf('sugar', 'unknown')}
            strokeDasharray="3 3"
            stroke="var(--ink)"
          />
        )}
        {[BETTER, MOST].map((grams) => (
          <g key={grams}>
            <line x1={x(grams)} x2={x(grams)} y1={0} y2={26} stroke="var(--ink)" strokeWidth={1.5} />
            <text
              x={Math.min(x(grams), WIDE)}
              y={40}
              fontSize={12.5}
              textAnchor={x(grams) > WIDE - 20 ? 'end' : 'middle'}
              fill="var(--ink)"
            >
              {grams} g
            </text>
          </g>
        ))}
      </svg>
      <p className="text-s text-soft">
        {said}. Most advised a day: {MOST} g, better {BETTER} g (WHO 2015, at 2000 kcal).
      </p>
    </>
  )
}
