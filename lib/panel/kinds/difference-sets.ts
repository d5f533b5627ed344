import { seededRandom } from '@/lib/stats/random'

/** How the cups of a difference test are served and what the taster is asked; named as the statistics name them. */
export const protocols = ['triangle', 'duo-trio', 'two-afc', 'three-afc', 'tetrad'] as const
export type Protocol = (typeof protocols)[number]

/**
 * The sets of each difference test: 1 and 2 are the two cups, in the order of tasting. Of a duo-trio the first is the
 * reference; of three alternatives only the cup that should have more of the property is served once, and is 1 here.
 *
 * Source   ISO 4120 (triangle: six orders), ISO 10399 (duo-trio: balanced reference), ISO 5495 (two-afc: both orders),
 *          Frijters (1979) (three-afc), ASTM E3009 (tetrad)
 * Checked  test/unit/panel/kinds/difference-sets.test.ts
 */
export const ARRANGEMENTS: Readonly<Record<Protocol, readonly (readonly number[])[]>> = {
  triangle: [
    [1, 1, 2],
    [1, 2, 1],
    [2, 1, 1],
    [2, 2, 1],
    [2, 1, 2],
    [1, 2, 2],
  ],
  'duo-trio': [
    [1, 1, 2],
    [1, 2, 1],
    [2, 1, 2],
    [2, 2, 1],
  ],
  'two-afc': [
    [1, 2],
    [2, 1],
  ],
  'three-afc': [
    [1, 2, 2],
    [2, 1, 2],
    [2, 2, 1],
  ],
  tetrad: [
    [1, 1, 2, 2],
    [1, 2, 1, 2],
    [1, 2, 2, 1],
    [2, 2, 1, 1],
    [2, 1, 2, 1],
    [2, 1, 1, 2],
  ],
}

/** Servings in one set. */
export function setSize(protocol: Protocol): number {
  return ARRANGEMENTS[protocol][0]?.length ?? 0
}

const count = (set: readonly number[], cup: number) => set.filter((one) => one === cup).length

/**
 * Which sets do new seats get, so that over all seats every order is served equally often?
 *
 *     each time one of the orders served least; of these one that evens out how often each cup is poured; of these any.
 *     Then all are shuffled, so that neither seat nor number of a set says anything.
 *
 * @param dealt    sets of the seats there are, 1 and 2 as in ARRANGEMENTS
 * @param howMany  sets to deal
 * @returns        orders differ by at most one over all sets, old and new together; pourings of the two cups by at most one,
 *                 but for three alternatives, which pour one of them twice a set
 *
 * Source   ISO 4120: the six orders equally often, at random over tasters
 * Checked  test/unit/panel/kinds/difference-sets.test.ts, test/integration/panel/difference.test.ts
 */
export function dealSets(
  protocol: Protocol,
  dealt: readonly (readonly number[])[],
  howMany: number,
  seed: number,
): number[][] {
  const seeded = seededRandom(seed)
  const random = dealt.length === 0 ? seeded : seededRandom(seeded.below(2 ** 31) ^ dealt.length)
  const kinds = ARRANGEMENTS[protocol].map((set) => ({
    set,
    times: dealt.filter((one) => String(one) === String(set)).length,
    lean: count(set, 1) - count(set, 2),
  }))
  let lean = dealt.reduce((sum, set) => sum + count(set, 1) - count(set, 2), 0)
  const sets: (readonly number[])[] = []
  for (let at = 0; at < howMany; at += 1) {
    const least = Math.min(...kinds.map(({ times }) => times))
    const open = kinds.filter(({ times }) => times === least)
    const evenest = Math.min(...open.map((one) => Math.abs(lean + one.lean)))
    const best = open.filter((one) => Math.abs(lean + one.lean) === evenest)
    const [drawn] = random.shuffle(best)
    if (!drawn) break
    drawn.times += 1
    lean += drawn.lean
    sets.push(drawn.set)
  }
  return random.shuffle(sets).map((set) => [...set])
}
