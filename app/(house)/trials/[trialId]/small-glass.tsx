import type { GlassLayers } from '@/lib/drink/layers'
import { sayGlass } from './glass-picture'
import { fillOf, Patterns, type Stuff } from './patterns'

const PREFIX = 'small-glass'
const [WIDE, TALL] = [46, 76]
const [LEFT, RIGHT, ROOF, FLOOR] = [3, 43, 3, 73]

/** What all small glasses of a page are filled with; it stands once before them, and shows nothing itself. */
export function SmallGlassPatterns() {
  return (
    <svg width={0} height={0} aria-hidden="true" className="absolute">
      <Patterns prefix={PREFIX} />
    </svg>
  )
}

/**
 * A glass of a trial in the room of a word: its layers without names, which its own page draws large.
 *
 * @param reach  ml that the height stands for: the same for glasses that stand beside one another
 */
export function SmallGlass({ glass, reach }: { glass: GlassLayers; reach: number }) {
  const { layers, ice, unknown, top, brim, fill } = glass
  const y = (amount: number) => FLOOR - ((FLOOR - ROOF) * amount) / reach
  return (
    <svg viewBox={`0 0 ${WIDE} ${TALL}`} width={WIDE} height={TALL} role="img" aria-label={sayGlass(glass)}>
      {layers.map(({ key, kind, from, to }) => (
        <Band key={key} stuff={kind} top={y(to)} bottom={y(from)} />
      ))}
      {ice && <Band stuff="ice" top={y(ice.to)} bottom={y(ice.from)} />}
      {unknown.length > 0 && <Band stuff="unknown" top={ROOF} bottom={y(top)} />}
      {fill !== null && (
        <line x1={LEFT - 3} x2={RIGHT + 3} y1={y(fill)} y2={y(fill)} stroke="var(--stop)" strokeDasharray="3 2" />
      )}
      <path
        d={`M${LEFT} ${y(brim ?? reach)}V${FLOOR}H${RIGHT}V${y(brim ?? reach)}`}
        fill="none"
        stroke="var(--ink)"
        strokeWidth={1.5}
        strokeDasharray={brim === null ? '2 3' : undefined}
      />
    </svg>
  )
}

function Band({ stuff, top, bottom }: { stuff: Stuff; top: number; bottom: number }) {
  return (
    <rect
      x={LEFT}
      width={RIGHT - LEFT}
      y={top}
      height={Math.max(0.5, bottom - top)}
      fill={fillOf(PREFIX, stuff)}
      stroke="var(--ink)"
      strokeWidth={0.6}
    />
  )
}
