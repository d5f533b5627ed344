/** Columns that lie closer to one another than this, as a share of their length, say the same thing twice. */
const SAME = 1e-9

/**
 * Which shares of these parts come nearest to a target, if a share may be anything?
 *
 *     min ‖Σ xⱼ·aⱼ − t‖  over  Σ xⱼ = 1;   x of the last part put in as 1 − the others, then QR by modified Gram-Schmidt
 *
 * @param target  t, any numbers of one scale
 * @param parts   a, one row of as many numbers for each part; at least one
 * @returns       a share for each part, together 1, some perhaps negative; null where several answers are as near
 *
 * Source   linear least squares with one equality put in; Björck (1996), Numerical Methods for Least Squares Problems (from memory)
 * Checked  test/unit/drink/blend.test.ts, test/reference/instead-of.test.ts
 */
export function sharesFor(target: readonly number[], parts: readonly (readonly number[])[]): readonly number[] | null {
  const last = parts.at(-1) ?? []
  const others = parts.slice(0, -1)
  const basis: number[][] = []
  const rows: number[][] = []
  const along: number[] = []
  let rest = minus(target, last)
  for (const part of others) {
    let column = minus(part, last)
    const length = Math.sqrt(dot(column, column))
    const row = basis.map((unit) => {
      const projected = dot(unit, column)
      column = minus(column, unit, projected)
      return projected
    })
    const left = Math.sqrt(dot(column, column))
    if (!(left > SAME * length)) return null
    const unit = column.map((value) => value / left)
    const projected = dot(unit, rest)
    rest = minus(rest, unit, projected)
    basis.push(unit)
    rows.push([...row, left])
    along.push(projected)
  }
  const shares = solveBack(rows, along)
  return [...shares, 1 - shares.reduce((all, share) => all + share, 0)]
}

/** Back substitution: `rows[j]` holds column j of R down to its diagonal. */
function solveBack(rows: readonly (readonly number[])[], along: readonly number[]): number[] {
  const found: number[] = along.map(() => 0)
  for (let j = along.length - 1; j >= 0; j--) {
    let value = along[j] ?? 0
    for (let k = j + 1; k < along.length; k++) value -= (rows[k]?.[j] ?? 0) * (found[k] ?? 0)
    found[j] = value / (rows[j]?.[j] ?? Number.NaN)
  }
  return found
}

const dot = (a: readonly number[], b: readonly number[]) => a.reduce((all, value, i) => all + value * (b[i] ?? 0), 0)
const minus = (a: readonly number[], b: readonly number[], times = 1) =>
  a.map((value, i) => value - times * (b[i] ?? 0))
