/** Okabe and Ito (2008), made for colour-blind readers; each colour goes with one shape, and both with a letter. */
const marks = [
  { colour: '#0072B2', shape: 'circle' },
  { colour: '#D55E00', shape: 'square' },
  { colour: '#009E73', shape: 'triangle' },
  { colour: '#CC79A7', shape: 'diamond' },
  { colour: '#E69F00', shape: 'cross' },
  { colour: '#56B4E9', shape: 'star' },
] as const

export type CupShape = (typeof marks)[number]['shape']

/**
 * A cup keeps its mark on every page of its panel: it goes by the letter. From the seventh on a colour comes again with
 * another shape, so that no two cups of a panel share both.
 */
export function markOf(letter: string): { readonly colour: string; readonly shape: CupShape } {
  const place = letter.charCodeAt(0) - 65
  const [colour, shape] = [place % marks.length, (place + Math.floor(place / marks.length)) % marks.length]
  return { colour: (marks[colour] ?? marks[0]).colour, shape: (marks[shape] ?? marks[0]).shape }
}

const paths: Readonly<Record<CupShape, string>> = {
  circle: 'M10 3a7 7 0 1 1 0 14a7 7 0 1 1 0-14z',
  square: 'M4 4h12v12H4z',
  triangle: 'M10 3l8 14H2z',
  diamond: 'M10 2l8 8l-8 8l-8-8z',
  cross: 'M7 3h6v4h4v6h-4v4H7v-4H3V7h4z',
  star: 'M10 2l2.4 5.2l5.6.7l-4.1 3.9l1.1 5.7L10 14.7l-5 2.8l1.1-5.7L2 7.9l5.6-.7z',
}

export function shapePath(letter: string): string {
  return paths[markOf(letter).shape]
}

export function CupMark({ letter }: { letter: string }) {
  return (
    <svg
      viewBox="0 0 20 20"
      width="20"
      height="20"
      aria-hidden="true"
      className="inline-block shrink-0 align-[-0.25em]"
    >
      <path d={shapePath(letter)} fill={markOf(letter).colour} stroke="var(--ink)" strokeWidth="1.5" />
    </svg>
  )
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
