import type { BuildFigures } from '@/lib/drink/trial'
import type { Figure } from '@/lib/drink/figure'
import { fixed } from '@/lib/base/number-format'
import { Twin } from './sheet-parts'

/** Where the moments stand: poured, then, when the ice has cooled it, minutes to scale. */
const MOMENTS = [
  { x: 14, axis: 'poured', words: 'Poured' },
  { x: 78, axis: 'cooled', words: 'After the ice has cooled it' },
  { x: 130.5, axis: '5 min', words: '5 minutes' },
  { x: 183, axis: '10', words: '10 minutes' },
  { x: 288, axis: '20 min', words: '20 minutes' },
] as const
const TALL = 28

interface Strip {
  readonly words: string
  readonly digits: number
  readonly figures: readonly Figure[]
}

/** Water from the ice and strength of the coffee over twenty minutes, from the heat balance, with its table. */
export function MeltPicture({ figures, iced }: { figures: BuildFigures; iced: boolean }) {
  if (!iced) return <p className="text-s text-soft">No ice goes in: nothing melts.</p>
  const { iceMelted, solidsBeforeMelt, solidsAfterMelt, dilution } = figures
  const water: Strip = {
    words: 'Water from the ice, g',
    digits: 0,
    figures: [none(iceMelted), iceMelted, ...dilution.map(({ meltwater }) => meltwater)],
  }
  const solids: Strip = {
    words: 'Coffee solids, %',
    digits: 2,
    figures: [solidsBeforeMelt, solidsAfterMelt, ...dilution.map(({ coffeeSolids }) => coffeeSolids)],
  }
  const strips = [water, ...(isNothing(solids) ? [] : [solids])]
  return (
    <>
      {strips.map((strip, place) => (
        <StripPicture key={strip.words} {...strip} last={place === strips.length - 1} />
      ))}
      <Twin
        words="The melt as a table"
        heads={['When', ...strips.map(({ words }) => words)]}
        rows={MOMENTS.map(({ words }, place) => [
          words,
          words,
          ...strips.map(({ figures: all, digits }) => sayOne(all[place], digits)),
        ])}
      />
    </>
  )
}

/** before any ice melts there is no water of it, where the melt is known at all */
const none = (melted: Figure): Figure => (melted.known ? { ...melted, value: 0 } : melted)
const isNothing = ({ figures }: Strip) => figures.every((one) => one.known && one.value === 0)
const sayOne = (figure: Figure | undefined, digits: number) =>
  figure?.known ? fixed(figure.value, digits) : 'not known'

function StripPicture({ words, digits, figures, last }: Strip & { last: boolean }) {
  const known = figures.flatMap((figure, place) => {
    const moment = MOMENTS[place]
    return figure.known && moment ? [{ ...moment, value: figure.value }] : []
  })
  if (known.length < figures.length) {
    const missing = [...new Set(figures.flatMap((figure) => (figure.known ? [] : figure.missing)))]
    return (
      <p className="text-s text-soft">
        {words}: not known, {missing.join('; ')}.
      </p>
    )
  }
  const most = Math.max(...known.map(({ value }) => value), Number.MIN_VALUE)
  const y = (value: number) => 18 + TALL * (1 - value / most)
  const points = known.map(({ x, value }) => `${x} ${y(value)}`)
  const label = `${words}: ${known.map((one) => `${one.words.toLowerCase()} ${fixed(one.value, digits)}`).join('; ')}`
  return (
    <figure>
      <figcaption className="text-s">{words}</figcaption>
      <svg viewBox={`0 0 304 ${TALL + (last ? 38 : 22)}`} className="w-full max-w-sm" role="img" aria-label={label}>
        <line x1={6} x2={298} y1={y(0)} y2={y(0)} stroke="var(--edge)" />
        <path
          d={`M${points.slice(0, 2).join('L')}`}
          stroke="var(--ink)"
          strokeWidth={1.5}
          strokeDasharray="4 3"
          fill="none"
        />
        <path d={`M${points.slice(1).join('L')}`} stroke="var(--ink)" strokeWidth={2} fill="none" />
        {known.map(({ x, axis, value }) => (
          <g key={axis} fontSize={12.5} textAnchor={x < 40 ? 'start' : x > 270 ? 'end' : 'middle'}>
            <circle cx={x} cy={y(value)} r={3} fill="var(--ink)" />
            <text x={x < 40 ? x - 8 : x > 270 ? x + 10 : x} y={y(value) - 7} fill="var(--ink)" fontWeight={650}>
              {fixed(value, digits)}
            </text>
            {last && (
              <text x={x < 40 ? x - 8 : x > 270 ? x + 10 : x} y={TALL + 33} fill="var(--soft-ink)">
                {axis}
              </text>
            )}
          </g>
        ))}
      </svg>
    </figure>
  )
}
