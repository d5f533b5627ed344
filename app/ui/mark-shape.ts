/** Outlines that stand for cups: different at a glance, and of one area, so that none looks heavier than another. */
export type MarkShape = 'circle' | 'square' | 'triangle' | 'diamond' | 'cross' | 'star'

/** Right and down from the middle of the mark, in pixels. */
export type Corner = readonly [x: number, y: number]

/** @param area  in square pixels */
export function circleRadius(area: number): number {
  return Math.sqrt(area / Math.PI)
}

/**
 * The corners of a shape in the order of its outline, its middle at 0, 0.
 *
 * Source   plane geometry: each is solved for its area
 *
 * @param area  in square pixels
 */
export function cornersOf(shape: Exclude<MarkShape, 'circle'>, area: number): readonly Corner[] {
  switch (shape) {
    case 'square':
      return ring([Math.sqrt(area / 2)], 4, 45)
    case 'triangle':
      return ring([Math.sqrt((4 * area) / (3 * Math.sqrt(3)))], 3)
    case 'diamond': {
      // two triangles of equal sides, one upside down below the other
      const height = Math.sqrt((area * Math.sqrt(3)) / 2)
      return ring([height, height / Math.sqrt(3)], 4)
    }
    case 'cross': {
      // five squares
      const [near, far] = [Math.sqrt(area / 5) / 2, 1.5 * Math.sqrt(area / 5)]
      const arm = [[-near, -far], [near, -far], [near, -near]] as const // prettier-ignore
      return [0, 1, 2, 3].flatMap((turns) => arm.map((corner) => turned(corner, turns)))
    }
    case 'star': {
      // five points whose sides are in line with each other: the inner corners lie on a circle smaller by the golden ratio squared
      const inner = (3 - Math.sqrt(5)) / 2
      const outer = Math.sqrt(area / (5 * inner * Math.sin(Math.PI / 5)))
      return ring([outer, outer * inner], 10)
    }
  }
}

/** Corners all the way round, the first straight up or so many degrees right of it; their distances come in turn. */
function ring(distances: readonly [number, ...number[]], corners: number, from = 0): Corner[] {
  return Array.from({ length: corners }, (_, i) => {
    const angle = ((from + (360 * i) / corners) * Math.PI) / 180
    const distance = distances[i % distances.length] ?? distances[0]
    return [distance * Math.sin(angle), -distance * Math.cos(angle)]
  })
}

/** A quarter turn to the right, as often as said. */
function turned([x, y]: Corner, times: number): Corner {
  return times === 0 ? [x, y] : turned([-y, x], times - 1)
}
