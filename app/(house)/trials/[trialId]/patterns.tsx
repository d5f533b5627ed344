import type { LineKind } from '@/lib/drink/trial'

/** What a part of a picture is made of; `unknown` is hatched, and nothing else is. */
export type Stuff = LineKind | 'unknown'

const marks: Readonly<Record<Exclude<Stuff, 'milk'>, { readonly size: number; readonly path: string }>> = {
  coffee: { size: 5, path: 'M0 2.5h5' },
  sweetener: { size: 7, path: 'M2 2h1.6v1.6h-1.6zM5.5 5.5h1.6v1.6h-1.6z' },
  water: { size: 14, path: 'M2 7h6' },
  ice: { size: 22, path: 'M4 5h11v11h-11z' },
  other: { size: 9, path: 'M4.5 2v5M2 4.5h5' },
  unknown: { size: 8, path: 'M-2 2l4-4M0 8l8-8M6 10l4-4' },
}

/** Fills that can be told apart without colour, for one picture: `fillOf(prefix, stuff)` uses them. */
export function Patterns({ prefix }: { prefix: string }) {
  return (
    <defs>
      {Object.entries(marks).map(([stuff, { size, path }]) => (
        <pattern key={stuff} id={`${prefix}-${stuff}`} width={size} height={size} patternUnits="userSpaceOnUse">
          <rect width={size} height={size} fill={stuff === 'unknown' ? 'var(--raised)' : `var(--of-${stuff})`} />
          <path
            d={path}
            fill="none"
            stroke="var(--ink)"
            strokeOpacity={0.6}
            strokeWidth={stuff === 'coffee' ? 0.7 : 1}
          />
        </pattern>
      ))}
    </defs>
  )
}

export const fillOf = (prefix: string, stuff: Stuff) =>
  stuff === 'milk' ? 'var(--of-milk)' : `url(#${prefix}-${stuff})`
