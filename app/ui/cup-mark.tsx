'use client'

// recharts makes a React context where it is loaded, which React's server has not: its symbols are drawn as parts of the
// client, and stand in the page before any script all the same.
import { Surface, Symbols } from 'recharts'

/** Okabe and Ito (2008), made for colour-blind readers; each colour goes with one shape, and both with a letter. */
const marks = [
  { colour: '#0072B2', shape: 'circle' },
  { colour: '#D55E00', shape: 'square' },
  { colour: '#009E73', shape: 'triangle' },
  { colour: '#CC79A7', shape: 'diamond' },
  { colour: '#E69F00', shape: 'cross' },
  { colour: '#56B4E9', shape: 'star' },
] as const

type CupShape = (typeof marks)[number]['shape']

/**
 * A cup keeps its mark on every page of its panel: it goes by the letter. From the seventh on a colour comes again with
 * another shape, so that no two cups of a panel share both.
 */
function markOf(letter: string): { readonly colour: string; readonly shape: CupShape } {
  const place = letter.charCodeAt(0) - 65
  const [colour, shape] = [place % marks.length, (place + Math.floor(place / marks.length)) % marks.length]
  return { colour: (marks[colour] ?? marks[0]).colour, shape: (marks[shape] ?? marks[0]).shape }
}

/** Square pixels of a mark, so that all shapes weigh about the same. */
const AREA = 150

/** The mark of a cup beside its name. */
export function CupMark({ letter }: { letter: string }) {
  return (
    <Surface
      width={20}
      height={20}
      viewBox={{ x: -12, y: -12, width: 24, height: 24 }}
      aria-hidden="true"
      className="inline-block shrink-0 align-[-0.25em]"
    >
      <Shape letter={letter} />
    </Surface>
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
  return <Symbols cx={0} cy={0} type={shape} size={AREA} fill={colour} stroke="var(--ink)" strokeWidth={1.5} />
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
