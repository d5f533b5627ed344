import { demand } from '@/lib/base/demand'

/** Base blocks, shifted step by step around circles of places; places beyond the circles stay where they are. */
interface Rule {
  /** length of a circle; cups 0 … size − 1 are the first circle, the next size cups the second … */
  readonly size: number
  readonly circles: number
  readonly blocks: readonly (readonly number[])[]
  /** blocks that come back to themselves after fewer steps: how many */
  readonly short?: readonly { readonly block: readonly number[]; readonly steps: number }[]
}

/**
 * The balanced designs for K ≤ 15 cups that are neither all pairs nor all-but-one, trays of at most half the cups,
 * key "K,M". Their numbers of trays are the smallest for which the counts come out whole.
 *
 * Source   Fisher and Yates, Statistical Tables, XVII–XIX; Cochran and Cox (1957), Experimental Designs, ch. 11, list
 *          the same parameters; the base blocks were found by search over differences (Bose 1939) and are
 *          proven by counting in test/unit/panel/incomplete-block.test.ts
 */
// prettier-ignore
const RULES: Readonly<Record<string, Rule>> = {
  '6,3': { size: 5, circles: 1, blocks: [[0, 2, 4], [0, 1, 5]] },
  '7,3': { size: 7, circles: 1, blocks: [[0, 1, 3]] },
  '8,4': { size: 7, circles: 1, blocks: [[0, 1, 3, 7], [2, 4, 5, 6]] },
  '9,3': { size: 8, circles: 1, blocks: [[0, 1, 3]], short: [{ block: [0, 4, 8], steps: 4 }] },
  '9,4': { size: 9, circles: 1, blocks: [[0, 1, 3, 8], [0, 2, 5, 6]] },
  '10,3': { size: 9, circles: 1, blocks: [[0, 1, 2], [0, 2, 5], [0, 4, 9]], short: [{ block: [0, 3, 6], steps: 3 }] },
  '10,4': { size: 5, circles: 2, blocks: [[0, 1, 2, 5], [0, 2, 7, 8], [0, 6, 7, 9]] },
  '10,5': { size: 9, circles: 1, blocks: [[0, 2, 3, 4, 8], [0, 2, 6, 8, 9]] },
  '11,3': { size: 11, circles: 1, blocks: [[0, 2, 7], [0, 3, 9], [0, 1, 9], [0, 4, 5], [0, 7, 10]] },
  '11,4': { size: 11, circles: 1, blocks: [[0, 2, 5, 6], [0, 2, 7, 8], [0, 1, 2, 4], [0, 1, 3, 8], [0, 4, 6, 7]] },
  '11,5': { size: 11, circles: 1, blocks: [[1, 3, 4, 5, 9]] },
  '12,3': { size: 11, circles: 1, blocks: [[0, 2, 6], [0, 8, 10], [0, 1, 7], [0, 3, 11]] },
  '12,4': { size: 11, circles: 1, blocks: [[0, 5, 8, 9], [0, 3, 4, 5], [0, 2, 7, 11]] },
  '12,5': {
    size: 11,
    circles: 1,
    blocks: [
      [0, 1, 5, 7, 9], [0, 6, 7, 8, 9], [0, 2, 5, 9, 10], [0, 2, 5, 9, 10], [0, 2, 3, 7, 10], [0, 1, 3, 6, 9],
      [0, 3, 4, 8, 10], [0, 2, 4, 7, 11], [0, 4, 9, 10, 11], [0, 4, 5, 10, 11], [0, 5, 7, 8, 11], [0, 1, 3, 10, 11],
    ],
  },
  '12,6': { size: 11, circles: 1, blocks: [[1, 3, 4, 5, 9, 11], [0, 2, 6, 7, 8, 10]] },
  '13,3': { size: 13, circles: 1, blocks: [[0, 1, 4], [0, 2, 7]] },
  '13,4': { size: 13, circles: 1, blocks: [[0, 1, 3, 9]] },
  '15,7': { size: 15, circles: 1, blocks: [[0, 1, 2, 4, 5, 8, 10]] },
}

/**
 * Which trays of M of K cups bring every pair of cups together equally often, with the fewest trays?
 *
 *     b M = r K,   λ (K − 1) = r (M − 1): each cup on r of b trays, each pair on λ of them
 *
 *     all pairs for M = 2, all-but-one for M = K − 1, all combinations for (8, 3), base blocks shifted around circles,
 *     and for M > K / 2 what the trays of the design for K − M leave out
 *
 * @param cups       K, 3 … 16
 * @param perTaster  M, 2 ≤ M < K
 * @returns  b trays of cups from 0, or null where no design is known here (only for K > 12)
 * @throws RangeError  K or M outside these limits
 *
 * Source   Fisher and Yates, Statistical Tables, XVII–XIX; Cochran and Cox (1957), ch. 11; complement: Bose (1939)
 * Checked  test/reference/cochran-1957-incomplete-blocks.test.ts
 */
export function balancedTrays(cups: number, perTaster: number): number[][] | null {
  demand(Number.isInteger(cups) && cups >= 3 && cups <= 16, `incomplete trays need 3 to 16 cups, got ${cups}`)
  demand(
    Number.isInteger(perTaster) && perTaster >= 1 && perTaster < cups,
    `an incomplete tray of ${cups} cups holds 1 to ${cups - 1}, got ${perTaster}`,
  )
  if (perTaster > cups / 2) {
    const left = balancedTrays(cups, cups - perTaster)
    return left && left.map((tray) => range(cups).filter((cup) => !tray.includes(cup)))
  }
  if (perTaster <= 2 || (cups === 8 && perTaster === 3)) return combinations(range(cups), perTaster)
  const rule = RULES[`${cups},${perTaster}`]
  return rule ? develop(rule) : null
}

const range = (n: number): number[] => Array.from({ length: n }, (_, at) => at)

function combinations(cups: readonly number[], size: number): number[][] {
  if (size === 0) return [[]]
  return cups.flatMap((cup, at) => combinations(cups.slice(at + 1), size - 1).map((rest) => [cup, ...rest]))
}

function develop({ size, circles, blocks, short = [] }: Rule): number[][] {
  const shift = (cup: number, by: number): number =>
    cup >= size * circles ? cup : Math.floor(cup / size) * size + ((cup + by) % size)
  const orbits = [...blocks.map((block) => ({ block, steps: size })), ...short]
  return orbits.flatMap(({ block, steps }) => range(steps).map((by) => block.map((cup) => shift(cup, by))))
}
