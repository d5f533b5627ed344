import { demand } from '@/lib/base/demand'

/** How the cups of a difference test are served and what the taster is asked. */
export const PROTOCOLS = ['triangle', 'duo-trio', 'two-afc', 'three-afc', 'tetrad'] as const

export type Protocol = (typeof PROTOCOLS)[number]

const GUESSING: Readonly<Record<Protocol, number>> = {
  triangle: 1 / 3,
  'duo-trio': 1 / 2,
  'two-afc': 1 / 2,
  'three-afc': 1 / 3,
  tetrad: 1 / 3,
}

/**
 * How often is the answer right by luck alone?
 *
 * @throws RangeError  a protocol that is not known
 *
 * Source   ISO 4120 (triangle), ISO 10399 (duo-trio), ISO 5495 (two-afc), ASTM E3009 (tetrad)
 * Checked  test/reference/difference-test.test.ts
 */
export function guessingShare(protocol: Protocol): number {
  demand(PROTOCOLS.includes(protocol), `a protocol must be one of ${PROTOCOLS.join(', ')}, got ${protocol}`)
  return GUESSING[protocol]
}

/**
 * Can answers under this protocol be right less often than by luck, because the difference runs the other way?
 *
 * The forced choices name a direction ("which is sweeter"); the others only ask which cup differs.
 */
export function hasDirection(protocol: Protocol): boolean {
  return protocol === 'two-afc' || protocol === 'three-afc'
}
