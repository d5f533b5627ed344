import type { SeededRandom } from '@/lib/stats/random'
import { completeRows } from './complete-order'
import { balancedTrays } from './incomplete-block'

/**
 * Orders of incomplete trays in which everything is even: cups, places, pairs, and who follows whom.
 *
 *     a balanced incomplete block design, each tray in all orders of a Williams square (odd trays: and its mirror image);
 *     a pair that shares λ trays is met λ times each way
 *
 * @param cups     K labels
 * @param size     M cups per tray, M < K
 * @param howMany  rows wanted at most
 * @returns        as many full sets as fit, each design after design, so that a set broken off is nearly even; none where
 *                 no design with these numbers is known. Cups from 0.
 *
 * Source   Williams (1949), section 6: squares within the blocks of a balanced incomplete block design
 * Checked  test/unit/panel/exact-trays.test.ts
 */
export function exactTrays(cups: number, size: number, howMany: number, random: SeededRandom): number[][][] {
  const design = balancedTrays(cups, size)
  if (!design) return []
  const rounds = size % 2 === 0 ? size : 2 * size
  return Array.from({ length: Math.floor(howMany / (rounds * design.length)) }, () => {
    const label = random.shuffle(Array.from({ length: cups }, (_, cup) => cup))
    const orders = design.map((tray) =>
      completeRows([], rounds, size, random).map((row) => row.map((place) => label[tray[place] as number] as number)),
    )
    return Array.from({ length: rounds }, (_, round) =>
      random.shuffle(orders.map((own) => own[round] as number[])),
    ).flat()
  })
}
