/** Gauss and Legendre's 10 points on (−1, 1), the positive half, with their weights. */
const POINTS = [
  [0.1488743389816312, 0.2955242247147529],
  [0.4333953941292472, 0.2692667193099963],
  [0.6794095682990244, 0.219086362515982],
  [0.8650633666889845, 0.1494513491505806],
  [0.9739065285171717, 0.0666713443086881],
] as const

/**
 * What is the area under a smooth curve between two ends?
 *
 * @param f       smooth between the ends; what it does beyond them does not matter
 * @param from    lower end
 * @param to      upper end
 * @param panels  equal parts, each with ten points: exact for polynomials of degree 19 in each
 *
 * Source   Abramowitz and Stegun, table 25.4
 * Checked  test/unit/stats/distribution/gauss-legendre.test.ts
 */
export function integratePanels(f: (x: number) => number, from: number, to: number, panels: number): number {
  const half = (to - from) / panels / 2
  let sum = 0
  for (let k = 0; k < panels; k++) {
    const centre = from + (2 * k + 1) * half
    for (const [at, weight] of POINTS) sum += weight * (f(centre - half * at) + f(centre + half * at))
  }
  return half * sum
}
