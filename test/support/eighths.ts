/** Whole numbers below a limit, in an order that a seed fixes: the same on every machine. */
export function eighthsFrom(seed: number): (below: number) => number {
  let state = seed
  return (below) => {
    // Park and Miller, Communications of the ACM 31 (1988) 1192–1201
    state = (state * 48_271) % 2_147_483_647
    return state % below
  }
}
