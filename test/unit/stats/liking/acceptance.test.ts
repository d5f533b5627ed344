import fc from 'fast-check'
import { expect, test } from 'vitest'
import { acceptance, type AcceptanceRow } from '@/lib/stats/liking/acceptance'

const LEVEL = { level: 0.95 }

/** A panel in which tasters 1 and 2 scored everything and the others at least the first cup. */
const panels = fc
  .record({ tasters: fc.integer({ min: 3, max: 9 }), cups: fc.integer({ min: 2, max: 5 }) })
  .chain(({ tasters, cups }) =>
    fc
      .array(fc.option(fc.integer({ min: 1, max: 9 }), { nil: null, freq: 6 }), {
        minLength: tasters * cups,
        maxLength: tasters * cups,
      })
      .map((scores) =>
        scores.map((score, i): AcceptanceRow => {
          const [taster, cup] = [Math.floor(i / cups), i % cups]
          return { taster: `t${taster}`, cup: `cup ${cup}`, score: taster < 2 || cup === 0 ? (score ?? 5) : score }
        }),
      ),
  )

const full = (scores: readonly (readonly number[])[]): AcceptanceRow[] =>
  scores.flatMap((row, taster) => row.map((score, cup) => ({ taster: `t${taster}`, cup: `c${cup}`, score })))

/** Every number of an answer with the path to it. */
function numbers(value: unknown, path = ''): [string, number][] {
  if (typeof value === 'number') return [[path, value]]
  if (value === null || typeof value !== 'object') return []
  return Object.entries(value).flatMap(([key, inner]) => numbers(inner, `${path}/${key}`))
}

function close(a: number | null | undefined, b: number | null | undefined, within = 1e-6) {
  if (a === null || a === undefined || b === null || b === undefined) return expect(a ?? null).toBe(b ?? null)
  expect(Math.abs(a - b) / Math.max(1, Math.abs(b)), `${a} against ${b}`).toBeLessThan(within)
}

test('no answer holds a number that is not finite, and every p lies in [0, 1]', () => {
  fc.assert(
    fc.property(panels, (rows) => {
      const found = numbers(acceptance(rows, { ...LEVEL, control: 'cup 0', margin: 0.5 }))
      for (const [path, value] of found) {
        expect(Number.isFinite(value), path).toBe(true)
        if (/\/p[A-Z]?[a-zA-Z]*$/.test(path) && !/prefer|position|pairs$/.test(path)) {
          expect(value, path).toBeGreaterThanOrEqual(0)
          expect(value, path).toBeLessThanOrEqual(1)
        }
      }
    }),
    { numRuns: 60 },
  )
})

test('the order of rows and the names of tasters change no digit', () => {
  fc.assert(
    fc.property(panels, fc.integer({ min: 1, max: 1e6 }), (rows, seed) => {
      const turned = rows
        .map((row, i) => ({ row, key: ((i + 1) * seed) % 9973 }))
        .sort((a, b) => a.key - b.key)
        .map(({ row }) => ({ ...row, taster: `${seed} ${row.taster}` }))
      expect(acceptance(turned, LEVEL)).toEqual(acceptance(rows, LEVEL))
    }),
    { numRuns: 40 },
  )
})

test('renaming the cups turns differences round and leaves everything else', () => {
  fc.assert(
    fc.property(panels, (rows) => {
      const plain = acceptance(rows, LEVEL)
      const renamed = acceptance(
        rows.map((row) => ({ ...row, cup: `cup ${9 - Number(row.cup.slice(4))}` })),
        LEVEL,
      )
      close(renamed.model.variance.residual, plain.model.variance.residual)
      close(renamed.overall.F, plain.overall.F, 1e-5)
      plain.pairs.forEach((pair, i) => {
        const other = renamed.pairs.find(
          ({ a, b }) => a === `cup ${9 - Number(pair.b.slice(4))}` && b === `cup ${9 - Number(pair.a.slice(4))}`,
        )
        close(other?.difference, -pair.difference)
        close(other?.p, pair.p)
        close(other?.paired?.p, plain.pairs[i]?.paired?.p)
        close(other?.robust.df, pair.robust.df, 1e-5)
      })
    }),
    { numRuns: 40 },
  )
})

test('a constant moves only the means, a factor scales', () => {
  fc.assert(
    fc.property(panels, (rows) => {
      const plain = acceptance(rows, LEVEL)
      const moved = acceptance(
        rows.map((row) => ({ ...row, score: row.score === null ? null : 3 * row.score + 1000 })),
        { ...LEVEL, step: 3 },
      )
      expect(moved.claims.map(({ claim }) => claim)).toEqual(plain.claims.map(({ claim }) => claim))
      plain.pairs.forEach((pair, i) => {
        close(moved.pairs[i]?.p, pair.p)
        close(moved.pairs[i]?.difference, 3 * pair.difference)
        close(moved.pairs[i]?.robust.se, 3 * (pair.robust.se ?? NaN))
      })
      plain.cups.forEach((cup, i) => close(moved.cups[i]?.estimate, 3 * cup.estimate + 1000))
      expect(moved.groups).toEqual(plain.groups)
    }),
    { numRuns: 40 },
  )
})

test('in a balanced panel REML is the analysis of variance whenever that gives tasters a variance', () => {
  const square = fc
    .record({ tasters: fc.integer({ min: 3, max: 8 }), cups: fc.integer({ min: 2, max: 5 }) })
    .chain(({ tasters, cups }) => {
      const row = fc.array(fc.integer({ min: 1, max: 9 }), { minLength: cups, maxLength: cups })
      return fc.array(row, { minLength: tasters, maxLength: tasters })
    })
  fc.assert(
    fc.property(square, (scores) => {
      const [n, k] = [scores.length, scores[0]?.length ?? 0]
      const all = scores.flat()
      const grand = all.reduce((a, b) => a + b) / all.length
      const rowMeans = scores.map((row) => row.reduce((a, b) => a + b) / k)
      const cupMeans = Array.from({ length: k }, (_, j) => scores.reduce((a, row) => a + (row[j] ?? 0), 0) / n)
      const ss = (values: readonly number[]) => values.reduce((a, x) => a + (x - grand) ** 2, 0)
      const msTaster = (k * ss(rowMeans)) / (n - 1)
      const msCup = (n * ss(cupMeans)) / (k - 1)
      const msError = (ss(all) - k * ss(rowMeans) - n * ss(cupMeans)) / ((n - 1) * (k - 1))
      fc.pre(msError > 1e-9 && msTaster > msError * (1 + 1e-9))
      const got = acceptance(full(scores), LEVEL)
      close(got.model.variance.taster, (msTaster - msError) / k, 1e-8)
      close(got.model.variance.residual, msError, 1e-8)
      close(got.overall.F, msCup / msError, 1e-8)
      close(got.overall.df2, (n - 1) * (k - 1), 1e-6)
    }),
    { numRuns: 60 },
  )
})

test('with two cups Tukey is the t test, and model and paired differences agree when tasters vary', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 })), {
        minLength: 3,
        maxLength: 20,
      }),
      (scores) => {
        const [pair] = acceptance(full(scores), LEVEL).pairs
        close(pair?.pTukey, pair?.p, 1e-9)
      },
    ),
    { numRuns: 40 },
  )
})

test('the letters agree with the claims, and the top with both', () => {
  fc.assert(
    fc.property(panels, (rows) => {
      const { claims, groups, top, cups } = acceptance(rows, { level: 0.4 })
      for (const { a, b, claim } of claims) {
        const shared = [...(groups?.[a] ?? '')].some((letter) => groups?.[b]?.includes(letter))
        expect(shared).toBe(claim === 'cannot tell' || claim === 'too few tasters')
      }
      const beaten = claims.flatMap(({ a, b, claim }) => (claim === 'a better' ? b : claim === 'b better' ? a : []))
      expect(top).toEqual(
        cups
          .toSorted((x, y) => y.estimate - x.estimate)
          .map(({ cup }) => cup)
          .filter((cup) => !beaten.includes(cup)),
      )
    }),
    { numRuns: 60 },
  )
})

test('one taster or one cup has means only', () => {
  const taster = acceptance(full([[5, 6, 7]]), LEVEL)
  expect(taster.pairs.map(({ difference, p, paired }) => [difference, p, paired])).toEqual([
    [-1, null, null],
    [-2, null, null],
    [-1, null, null],
  ])
  expect(taster.claims).toEqual([])
  expect(taster.notes).toContain('One taster: means only, nothing can be tested.')
  const cup = acceptance(full([[5], [7]]), LEVEL)
  expect(cup.cups[0]).toMatchObject({ n: 2, mean: 6, estimate: 6, se: null })
  expect(cup.top).toEqual(['c0'])
})

test('equal scores have no variance and no p', () => {
  const answer = acceptance(
    full([
      [5, 5, 5],
      [5, 5, 5],
      [5, 5, 5],
    ]),
    { ...LEVEL, control: 'c0', margin: 1 },
  )
  expect(answer.model.variance).toEqual({ taster: 0, tasterByCup: null, residual: 0 })
  expect(answer.model.singular).toBe(true)
  expect(answer.overall.p).toBeNull()
  expect(answer.notes).toContain('singular fit')
  expect(answer.notes).toContain('All scores are equal: variances 0, nothing can be tested.')
  expect(answer.pairs.every(({ p }) => p === null)).toBe(true)
})

test('scores that cups and tasters explain exactly leave no residual and no p', () => {
  const answer = acceptance(
    full([
      [1, 2, 4],
      [3, 4, 6],
      [6, 7, 9],
    ]),
    LEVEL,
  )
  expect(answer.model.variance.residual).toBe(0)
  // the tasters' levels 1, 3, 6: sample variance 19/3
  close(answer.model.variance.taster, 19 / 3, 1e-12)
  close(answer.pairs[0]?.difference, -1, 1e-12)
  expect(answer.pairs[0]).toMatchObject({ t: null, p: null })
})

test('a cup that nobody scored is left out and named, its empty cells counted', () => {
  const rows = [
    ...full([
      [5, 6],
      [6, 8],
      [4, 4],
    ]),
    { taster: 't0', cup: 'c9', score: null },
  ]
  const answer = acceptance(rows, LEVEL)
  expect(answer.counts).toEqual({ tasters: 3, cups: 2, scores: 6, missing: 1 })
  expect(answer.notes).toContain('Never scored and left out: c9.')
})

test('groups that nothing connects are refused by name', () => {
  const rows = [
    { taster: 'ann', cup: 'A', score: 5 },
    { taster: 'ann', cup: 'B', score: 6 },
    { taster: 'bo', cup: 'C', score: 5 },
    { taster: 'bo', cup: 'D', score: 7 },
  ]
  expect(() => acceptance(rows, LEVEL)).toThrow(/cups A, B with tasters ann \| cups C, D with tasters bo/)
})

test('an unknown control, a margin of zero and a level of 95 are refused with the value', () => {
  const rows = full([
    [5, 6],
    [6, 8],
  ])
  expect(() => acceptance(rows, { ...LEVEL, control: 'house' })).toThrow(/house/)
  expect(() => acceptance(rows, { ...LEVEL, margin: 0 })).toThrow(/got 0/)
  expect(() => acceptance(rows, { level: 95 })).toThrow(/got 95/)
})

test('a tree of scores leaves nothing for the residual: null and a sentence', () => {
  const rows = [
    { taster: 'ann', cup: 'A', score: 5 },
    { taster: 'ann', cup: 'B', score: 6 },
    { taster: 'bo', cup: 'B', score: 5 },
    { taster: 'bo', cup: 'C', score: 7 },
  ]
  const answer = acceptance(rows, LEVEL)
  expect(answer.model.variance.residual).toBeNull()
  expect(answer.overall.p).toBeNull()
  expect(answer.notes.join(' ')).toMatch(/No degrees of freedom/)
})

test('few repeats are averaged, six or a replicate column make a variance of their own', () => {
  const rows = full([
    [5, 6, 4],
    [6, 8, 5],
    [4, 4, 6],
    [7, 5, 6],
    [3, 6, 2],
    [5, 9, 5],
  ])
  const again = (n: number) => [...rows, ...rows.slice(0, n).map((row) => ({ ...row, score: (row.score ?? 0) + 1 }))]
  expect(acceptance(again(5), LEVEL).model.formula).toBe('score ~ cup + (1 | taster)')
  expect(acceptance(again(5), LEVEL).notes.join(' ')).toMatch(/5 taster–cup pairs/)
  expect(acceptance(again(6), LEVEL).model.variance.tasterByCup).not.toBeNull()
  expect(acceptance(again(1), { ...LEVEL, replicated: true }).model.formula).toMatch(/taster:cup/)
})

test('a session that shares no cup with the others is refused, sessions in common are averaged', () => {
  const rows = full([
    [5, 6, 4, 7],
    [6, 8, 5, 3],
    [4, 4, 6, 5],
  ])
  const apart = rows.map((row) => ({ ...row, session: row.cup < 'c2' ? 'Monday' : 'Tuesday' }))
  expect(() => acceptance(apart, { ...LEVEL, session: true })).toThrow(/Monday/)
  const shared = rows.map((row, i) => ({ ...row, session: i % 3 === 0 ? 'Monday' : 'Tuesday' }))
  expect(acceptance(shared, { ...LEVEL, session: true }).model.formula).toBe('score ~ cup + session + (1 | taster)')
})

test('a session that is also a taster leaves no interval, and says so, never an infinite one', () => {
  const rows = [
    { taster: 't0', cup: 'a', score: 5.716338524565368, session: 'mon' },
    { taster: 't0', cup: 'b', score: 4.7717655208609315, session: 'mon' },
    { taster: 't1', cup: 'a', score: 1.0689167247367268, session: 'tue' },
    { taster: 't1', cup: 'b', score: 1.542543543402359, session: 'tue' },
  ]
  const answer = acceptance(rows, { level: 0.95, session: true })
  expect(JSON.stringify(answer)).toBe(
    JSON.stringify(answer, (_, value: unknown) => (value === Infinity ? 'infinite' : value)),
  )
  for (const cup of answer.cups) expect(cup.interval === null || cup.interval.every(Number.isFinite)).toBe(true)
  expect(answer.notes.join()).toMatch(/no interval for the marginal mean/)
})

const eight = [
  [5, 6, 7],
  [4, 6, 5],
  [6, 8, 7],
  [5, 5, 6],
  [3, 6, 6],
  [7, 8, 9],
  [5, 7, 6],
  [4, 5, 7],
]

test('against a control every claim is of the other cup, and top and groups have nothing to say', () => {
  const answer = acceptance(full(eight), { ...LEVEL, control: 'c1', margin: 1 })
  expect(answer.plan).toEqual({ plan: 'against', pairs: 2, level: 0.95 })
  expect(answer.claims.map(({ a, b }) => `${a} − ${b}`)).toEqual(['c0 − c1', 'c2 − c1'])
  // differences c0 − c1: −1 −2 −2 0 −3 −1 −2 −1, mean −1.5
  expect(answer.claims[0]?.difference).toBeCloseTo(-1.5, 12)
  expect([answer.top, answer.groups]).toEqual([null, null])
  expect(answer.control?.pairs.length).toBe(2)
})

test('a control that nobody scored leaves no claims, and no exception', () => {
  const rows = [...full(eight), { taster: 't0', cup: 'house', score: null }]
  const answer = acceptance(rows, { ...LEVEL, control: 'house' })
  expect(answer.claims).toEqual([])
  expect(answer.control).toBeNull()
  expect(answer.notes).toContain('Never scored and left out: house.')
  expect(() => acceptance(rows, { ...LEVEL, control: 'horse' })).toThrow(/horse/)
})

test('one pair uses the scores of its two cups alone', () => {
  const answer = acceptance(full(eight), { ...LEVEL, pair: ['c2', 'c0'] })
  expect(answer.cups.map(({ cup }) => cup)).toEqual(['c0', 'c2'])
  expect(answer.counts).toEqual({ tasters: 8, cups: 2, scores: 16, missing: 0 })
  expect(answer.plan).toEqual({ plan: 'pair', pairs: 1, level: 0.95 })
})

test('skips at the lowest score are looked at beside every claim, and a lost claim gets a note', () => {
  const rows = full(eight.map(([a = 0, b = 0]) => [a, b])).map((row, i) => ({ ...row, skipped: false, i }))
  // the better cup is skipped by three more tasters, who give the other one a five
  const more = ['x', 'y', 'z'].flatMap((taster) => [
    { taster, cup: 'c0', score: 5 },
    { taster, cup: 'c1', score: null, skipped: true },
  ])
  const answer = acceptance([...rows, ...more], { ...LEVEL, skipsCountAs: 1 })
  expect(answer.claims[0]?.claim).toBe('b better')
  expect(answer.claims[0]?.ifSkipsLowest?.claim).toBe('cannot tell')
  expect(answer.notes.join(' ')).toMatch(/“b better” does not survive when skipped cups count as 1/)
  expect(acceptance([...rows, ...more], LEVEL).claims[0]?.ifSkipsLowest).toBeNull()
})

test('nobody skipped: the same again', () => {
  const [claim] = acceptance(full(eight), { ...LEVEL, skipsCountAs: 1 }).claims
  expect(claim?.ifSkipsLowest).toEqual({ low: claim?.low, high: claim?.high, claim: claim?.claim, byMargin: null })
})

test('equal scores: the step’s rounding error bounds the difference', () => {
  const answer = acceptance(full(Array.from({ length: 6 }, () => [5, 5, 5])), { ...LEVEL, margin: 1 })
  expect(answer.claims.map(({ claim, byMargin }) => [claim, byMargin])).toEqual(
    Array.from({ length: 3 }, () => ['cannot tell', 'as good']),
  )
  expect(answer.notes.join(' ')).toMatch(/the standard error is that of rounding/)
})

test('a step below zero, a margin level of 90 and a lowest score that is no number are refused', () => {
  expect(() => acceptance(full(eight), { ...LEVEL, step: -1 })).toThrow(/got -1/)
  expect(() => acceptance(full(eight), { ...LEVEL, marginLevel: 90 })).toThrow(/got 90/)
  expect(() => acceptance(full(eight), { ...LEVEL, skipsCountAs: NaN })).toThrow(/NaN/)
})
