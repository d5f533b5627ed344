import type { BuildFigures, TrialBuild } from '@/lib/drink/trial'
import type { Figure } from '@/lib/drink/figure'
import { coins } from '@/lib/base/number-format'
import { One, Row } from './drink-card'
import { fillOf, Patterns, type Stuff } from './patterns'
import { Sheet } from './sheet-parts'
import { SugarBar } from './sugar-bar'

const WIDE = 264
/** what an unknown part takes of the bar: room to be seen, and no amount */
const UNKNOWN = 34

interface Part {
  readonly mark: string
  readonly name: string
  readonly stuff: Stuff
  readonly figure: Figure
}

/** What a glass costs, divided into what it is spent on; what is not known is hatched, and the sum says "at least". */
export function CostCard({ figures, build }: { figures: BuildFigures; build: TrialBuild }) {
  const { currency, menuPrice } = build.money
  const { perGlass, costShare, contribution } = figures.cost
  const parts = partsOf(figures, build)
  const known = parts.reduce((all, { figure }) => all + (figure.known ? figure.value : 0), 0)
  const title = perGlass.known
    ? `${coins(perGlass.value, currency)} ${currency} a glass`
    : `At least ${coins(known, currency)} ${currency} a glass`
  return (
    <Sheet title={title}>
      <Bar
        parts={parts}
        known={known}
        label={`${title}: ${parts.map((part) => `${part.name} ${amountOf(part, currency)}`).join('; ')}`}
      />
      <dl className="mb-2">
        {parts.map((part) => (
          <Row key={part.mark + part.name} words={`${part.mark} ${part.name}`} tight>
            {amountOf(part, currency)}
          </Row>
        ))}
      </dl>
      <dl className="border-t border-line pt-1">
        {menuPrice !== null && (
          <Row words="Menu price" tight>
            {coins(menuPrice, currency)} {currency}
          </Row>
        )}
        <One words="Cost in the net price" figure={costShare} digits={0} brief />
        <One words="Left of a glass" figure={contribution} brief />
      </dl>
      <h3 className="mt-1 text-m">Free sugars</h3>
      <SugarBar figures={figures} />
    </Sheet>
  )
}

function partsOf({ lines, cost }: BuildFigures, build: TrialBuild): Part[] {
  const nothing = (figure: Figure) => figure.known && figure.value === 0
  return [
    ...lines.map((line, place) => ({
      mark: `${place + 1}`,
      name: line.name,
      stuff: build.lines[place]?.kind ?? 'other',
      figure: line.cost,
    })),
    // a share of what is not wholly known is not known either, and hides nothing by itself
    ...(nothing(cost.waste) ? [] : [{ mark: 'w', name: 'waste', stuff: 'other' as const, figure: cost.waste }]),
    ...(nothing(cost.packaging)
      ? []
      : [{ mark: 'p', name: 'packaging', stuff: 'water' as const, figure: cost.packaging }]),
  ]
}

function amountOf({ figure }: Part, currency: string): string {
  if (!figure.known) return 'not known'
  return figure.value === 0 && figure.assumed.length > 0
    ? `${coins(0, currency)}, no price entered`
    : coins(figure.value, currency)
}

function Bar({ parts, known, label }: { parts: readonly Part[]; known: number; label: string }) {
  const hidden = parts.filter(({ figure }) => !figure.known)
  const room = WIDE - UNKNOWN * Math.min(hidden.length, 5)
  const each = hidden.length === 0 ? 0 : (WIDE - room) / hidden.length
  const wide = ({ figure }: Part) => (figure.known ? (known > 0 ? (room * figure.value) / known : 0) : each)
  const starts = parts.map((_, place) => parts.slice(0, place).reduce((all, part) => all + wide(part), 0))
  return (
    <svg viewBox={`0 0 ${WIDE} 42`} className="mb-1 w-full max-w-sm" role="img" aria-label={label}>
      <Patterns prefix="cost" />
      {parts.map((part, place) => {
        const [x, width] = [starts[place] ?? 0, wide(part)]
        if (width === 0) return null
        return (
          <g key={part.mark + part.name}>
            <rect
              x={x + 0.5}
              y={1}
              width={Math.max(0.5, width - 1)}
              height={24}
              fill={fillOf('cost', part.figure.known ? part.stuff : 'unknown')}
              stroke="var(--ink)"
              strokeWidth={0.8}
            />
            {width >= 9 && (
              <text x={x + width / 2} y={39} fontSize={12.5} textAnchor="middle" fill="var(--ink)">
                {part.mark}
                {part.figure.known ? '' : ' ?'}
              </text>
            )}
          </g>
        )
      })}
    </svg>
  )
}
