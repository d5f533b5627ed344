import type { GlassLayers } from '@/lib/drink/layers'
import { fixed } from '@/lib/base/number-format'
import { spreadLabels } from '@/app/ui/spread-labels'
import { fillOf, Patterns, type Stuff } from './patterns'

const WIDE = 264
const [LEFT, RIGHT] = [4, 96]
const WORDS = 108
const LINE = 15
const LONGEST = 25

interface Mark {
  readonly at: number
  readonly strong?: string
  readonly words: string
}

const short = (words: string) => (words.length > LONGEST ? `${words.slice(0, LONGEST - 1).trimEnd()}…` : words)
const ml = (amount: number) => `${fixed(amount, amount < 10 ? 1 : 0)} ml`

/** The glass in layers to scale, drawn on the server: what it says stands in words beside it, and in its table. */
export function GlassPicture({ glass }: { glass: GlassLayers }) {
  const { layers, ice, unknown, top, brim, fill } = glass
  const marks = [...layerMarks(glass), ...lineMarks(glass)]
  const tall = Math.max(
    220,
    marks.reduce((all, { strong }) => all + (strong === undefined ? LINE : 2 * LINE), 30),
  )
  const [roof, floor] = [16, tall - 8]
  // what nobody knows the room of stands in the open, above what is known
  const reach = Math.max(brim ?? 0, fill ?? 0, top * (brim === null || unknown.length > 0 ? 1.15 : 1), 1)
  const y = (amount: number) => floor - ((floor - roof) * amount) / reach
  const placed = spreadLabels(
    marks.map(({ at, strong }) => ({ at: y(at), tall: strong === undefined ? LINE : 2 * LINE })),
    2,
    tall - 2,
  )
  return (
    <svg viewBox={`0 0 ${WIDE} ${tall}`} className="w-full max-w-80" role="img" aria-label={sayGlass(glass)}>
      <Patterns prefix="glass" />
      {layers.map(({ key, kind, from, to }) => (
        <Band key={key} stuff={kind} top={y(to)} bottom={y(from)} />
      ))}
      {ice && <Band stuff="ice" top={y(ice.to)} bottom={y(ice.from)} />}
      {unknown.length > 0 && <Band stuff="unknown" top={roof} bottom={y(top)} open />}
      {ice?.line != null && <Level y={y(ice.line)} look="ice" />}
      {fill !== null && <Level y={y(fill)} look="fill" />}
      <Walls top={y(brim ?? reach)} floor={floor} sure={brim !== null} />
      {marks.map(({ at, strong, words }, place) => (
        <Words key={words} from={y(at)} at={placed[place] ?? y(at)} strong={strong} words={words} />
      ))}
    </svg>
  )
}

function layerMarks({ layers, ice, unknown, top }: GlassLayers): Mark[] {
  return [
    ...layers.map(({ line, name, from, to }) => ({
      at: (from + to) / 2,
      strong: ml(to - from),
      words: `${line} ${name}`,
    })),
    ...(ice
      ? [{ at: (ice.from + ice.to) / 2, strong: ml(ice.to - ice.from), words: `${ice.lines.join(', ')} Ice, on top` }]
      : []),
    ...(unknown.length > 0
      ? [{ at: top * 1.08, strong: 'not known', words: `line ${unknown.map(({ line }) => line).join(', ')}` }]
      : []),
  ]
}

function lineMarks({ ice, brim, fill }: GlassLayers): Mark[] {
  return [
    ...(ice?.line == null ? [] : [{ at: ice.line, words: `drink stands at ${fixed(ice.line, 0)}` }]),
    ...(fill === null ? [] : [{ at: fill, words: `fill line ${fixed(fill, 0)}` }]),
    ...(brim === null ? [] : [{ at: brim, words: `brim ${fixed(brim, 0)}` }]),
  ]
}

function Band({ stuff, top, bottom, open = false }: { stuff: Stuff; top: number; bottom: number; open?: boolean }) {
  return (
    <rect
      x={LEFT + 1}
      width={RIGHT - LEFT - 2}
      y={top}
      height={Math.max(0.5, bottom - top)}
      fill={fillOf('glass', stuff)}
      stroke="var(--ink)"
      strokeWidth={0.8}
      strokeDasharray={open ? '3 3' : undefined}
    />
  )
}

function Level({ y, look }: { y: number; look: 'ice' | 'fill' }) {
  return (
    <line
      x1={look === 'fill' ? LEFT - 4 : LEFT + 1}
      x2={look === 'fill' ? RIGHT + 4 : RIGHT - 1}
      y1={y}
      y2={y}
      stroke={look === 'fill' ? 'var(--stop)' : 'var(--ink)'}
      strokeWidth={look === 'fill' ? 1.5 : 2}
      strokeDasharray={look === 'fill' ? '5 3' : undefined}
    />
  )
}

function Walls({ top, floor, sure }: { top: number; floor: number; sure: boolean }) {
  return (
    <path
      d={`M${LEFT} ${top}V${floor}H${RIGHT}V${top}`}
      fill="none"
      stroke="var(--ink)"
      strokeWidth={2}
      strokeDasharray={sure ? undefined : '2 4'}
    />
  )
}

function Words({ from, at, strong, words }: { from: number; at: number; strong?: string | undefined; words: string }) {
  const first = strong === undefined ? at + 4 : at - 3
  return (
    <g fontSize={12.5}>
      <path d={`M${RIGHT + 2} ${from}L${WORDS - 3} ${at}`} stroke="var(--edge)" strokeWidth={0.8} />
      {strong !== undefined && (
        <text x={WORDS} y={first} fill="var(--ink)" fontWeight={650}>
          {strong}
        </text>
      )}
      <text x={WORDS} y={strong === undefined ? first : first + LINE - 2} fill="var(--soft-ink)">
        {short(words)}
      </text>
    </g>
  )
}

/** The glass in words, for whoever does not see it. */
export function sayGlass({ layers, ice, unknown }: GlassLayers): string {
  return [
    'The glass in layers to scale, from the bottom up, in the order poured',
    ...layers.map(({ name, from, to }) => `${name} ${ml(to - from)}`),
    ...(ice ? [`ice ${ml(ice.to - ice.from)} on top`] : []),
    ...unknown.map(({ name }) => `${name} not known`),
  ].join('; ')
}
