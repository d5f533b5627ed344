import { circleRadius, cornersOf, type Corner, type MarkShape } from './mark-shape'

/** Okabe and Ito (2008), made for colour-blind readers; each colour goes with one shape, and both with a letter. */
const marks = [
  { colour: '#0072B2', shape: 'circle' },
  { colour: '#D55E00', shape: 'square' },
  { colour: '#009E73', shape: 'triangle' },
  { colour: '#CC79A7', shape: 'diamond' },
  { colour: '#E69F00', shape: 'cross' },
  { colour: '#56B4E9', shape: 'star' },
] as const

/**
 * A cup keeps its mark on every page of its panel: it goes by the letter. From the seventh on a colour comes again with
 * another shape, so that no two cups of a panel share both.
 */
function markOf(letter: string): { readonly colour: string; readonly shape: MarkShape } {
  const place = letter.charCodeAt(0) - 65
  const [colour, shape] = [place % marks.length, (place + Math.floor(place / marks.length)) % marks.length]
  return { colour: (marks[colour] ?? marks[0]).colour, shape: (marks[shape] ?? marks[0]).shape }
}

/** Square pixels of a mark, so that all shapes weigh about the same. */
const AREA = 150

/** The mark of a cup beside its name. */
export function CupMark({ letter }: { letter: string }) {
  return (
    <svg
      width={20}
      height={20}
      viewBox="-12 -12 24 24"
      aria-hidden="true"
      className="inline-block shrink-0 align-[-0.25em]"
    >
      <Shape letter={letter} />
    </svg>
  )
}

/** The mark of a cup at its place in a plot. @param x  a share of the plot's width: "37.5%" */
export function PlacedMark({ letter, x, y }: { letter: string; x: string; y: number }) {
  return (
    <svg x={x} y={y} overflow="visible">
      <Shape letter={letter} />
    </svg>
  )
}

function Shape({ letter }: { letter: string }) {
  const { colour, shape } = markOf(letter)
  const paint = { fill: colour, stroke: 'var(--ink)', strokeWidth: 1.5 }
  if (shape === 'circle') return <circle r={circleRadius(AREA)} {...paint} />
  return <polygon points={cornersOf(shape, AREA).map(pointOf).join(' ')} {...paint} />
}

/** A thousandth of a pixel is nothing to be seen. */
function pointOf([x, y]: Corner): string {
  return `${Number(x.toFixed(3))},${Number(y.toFixed(3))}`
}

/** Mark, letter and name of a cup, wherever one is spoken of. */
export function CupName({ letter, name, isHouse }: { letter: string; name: string; isHouse: boolean }) {
  return (
    <span className="inline-flex items-baseline gap-2">
      <CupMark letter={letter} />
      <span>
        <strong className="font-semibold">{letter}</strong> {name}
        {isHouse && <span className="text-soft"> (house recipe)</span>}
      </span>
    </span>
  )
}
