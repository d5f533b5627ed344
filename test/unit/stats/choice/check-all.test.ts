import { expect, test } from 'vitest'
import { check } from '@/lib/stats/choice/check-all'

const rows = [
  [1, 0, 0],
  [1, 1, 0],
  [1, 0, null],
  [0, 0, 1],
  [1, 0, 1],
].flatMap((row, i) =>
  row.map((tick, j) => ({
    taster: `t${i}`,
    cup: `c${j + 1}`,
    term: 'smoky',
    checked: tick === null ? null : tick === 1,
  })),
)

test('Q over the complete tasters, pairs and shares over all who answered', () => {
  const answer = check(rows, { level: 0.95 })
  expect(answer.counts).toEqual({ tasters: 5, cups: 3, terms: 1, answers: 14, missing: 1 })
  expect(answer.notes).toEqual(['smoky: Q over the 4 of 5 tasters who answered for every cup'])
  const [term] = answer.terms
  expect(term?.shares).toEqual({ c1: 0.8, c2: 0.2, c3: 0.5 })
  // c1 against c2: three ticked only c1, nobody only c2, so 2 / 2³
  expect(term?.pairs[0]).toMatchObject({ a: 'c1', b: 'c2', pMcNemar: 0.25 })
})

test('row order changes nothing, terms come in label order', () => {
  const two = [...rows, ...rows.map((row) => ({ ...row, term: 'bitter' }))]
  const answer = check(two, { level: 0.95 })
  expect(answer.terms.map(({ term }) => term)).toEqual(['bitter', 'smoky'])
  expect(check(two.toReversed(), { level: 0.95 })).toEqual(answer)
})

test('a term nobody ticked has nothing to test, with a note', () => {
  const answer = check(
    rows.map((row) => ({ ...row, checked: false })),
    { level: 0.95 },
  )
  expect(answer.terms[0]).toMatchObject({ Q: null, p: null, pExact: null })
  expect(answer.notes.join()).toContain('nothing to test')
})

test('an answer given twice is refused, nothing at all is an empty answer', () => {
  expect(() => check([...rows, ...rows.slice(0, 1)], { level: 0.95 })).toThrow(
    'taster t0 answers smoky twice for cup c1',
  )
  expect(check([], { level: 0.95 }).terms).toEqual([])
})

test('terms are adjusted over all that can be tested: Holm by hand', () => {
  // nine tasters and two cups: k of them tick cup A alone, so the exact two-sided p of Cochran's Q is 2/2^k (all on one side)
  const term = (name: string, k: number) =>
    Array.from({ length: 9 }, (_, taster) =>
      ['A', 'B'].map((cup) => ({ taster: String(taster), cup, term: name, checked: cup === 'A' && taster < k })),
    ).flat()
  const { terms } = check([...term('date', 8), ...term('sweet', 6), ...term('thin', 0)], { level: 0.95 })
  const of = (name: string) => terms.find((one) => one.term === name)
  expect(of('date')?.pHolmTerms).toBeCloseTo(2 * (2 / 2 ** 8), 12)
  expect(of('sweet')?.pHolmTerms).toBeCloseTo(2 / 2 ** 6, 12)
  expect(of('thin')?.pHolmTerms).toBeNull()
})
