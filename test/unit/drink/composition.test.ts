import { expect, test } from 'vitest'
import { STARTERS } from '@/lib/drink/composition'
import { compositionProblems, densityProblems } from '@/lib/drink/ingredient-problem'

test('no starter has a composition or a liquid density that cannot be', () => {
  for (const { name, composition, density, form } of STARTERS) {
    expect(compositionProblems('c', name, composition)).toEqual([])
    if (form === 'liquid') expect(densityProblems('d', name, density, null)).toEqual([])
  }
})

test('every starter has its own id, its source, and a source from memory says so', () => {
  expect(new Set(STARTERS.map(({ id }) => id)).size).toBe(STARTERS.length)
  for (const { source } of STARTERS) expect(source.length).toBeGreaterThan(10)
  for (const { kind, source } of STARTERS) if (kind === 'coffee') expect(source).toContain('memory')
})

test('what is milk by its name carries milk, and soy and almond drinks what they are made of', () => {
  const carries = (id: string) => STARTERS.find((one) => one.id === id)?.carries
  expect(carries('evaporated-milk')).toEqual(['milk'])
  expect(carries('condensed-milk')).toEqual(['milk'])
  expect(carries('soy-drink')).toEqual(['soybeans'])
  expect(carries('almond-drink')).toEqual(['tree-nuts'])
  expect(carries('almond-drink-unsweetened')).toEqual(['tree-nuts'])
  expect(carries('soy-drink-unsweetened')).toEqual(['soybeans'])
  expect(carries('oat-drink')).toEqual(['gluten-cereals'])
})
