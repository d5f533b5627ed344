import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { ALLERGEN_LISTS, allergensOf, graverThan, markOf, sayAllergens } from '@/lib/drink/allergen'
import type { AllergenMark, AllergenPart } from '@/lib/drink/allergen'

const part = (name: string, marks: Record<string, AllergenMark> = {}, labelRead = true): AllergenPart => ({
  name,
  marks,
  labelRead,
})
const stateOf = (parts: AllergenPart[], id: string) => allergensOf(parts, 'eu').rows.find((row) => row.id === id)

// Counted on the pages: EU 1169/2011 Annex II names 14; the Philippine order eight groups, peanuts and soybeans as one;
// the US nine from memory.
test('each list has as many allergens as its law', () => {
  expect(ALLERGEN_LISTS.eu.allergens.length).toBe(14)
  expect(ALLERGEN_LISTS.us.allergens.length).toBe(9)
  expect(ALLERGEN_LISTS.philippines.allergens.length).toBe(9)
  expect(ALLERGEN_LISTS.philippines.allergens.map(({ id }) => id)).not.toContain('sesame')
})

test('a list from memory says so', () => {
  expect(ALLERGEN_LISTS.us.source).toContain('from memory')
  expect(ALLERGEN_LISTS.codex.source).toContain('from memory')
})

test('"free from" needs every label read and silent', () => {
  expect(stateOf([part('Water'), part('Sugar')], 'milk')).toMatchObject({ state: 'not-named', freeFromAllowed: true })
  expect(stateOf([part('Water'), part('Sauce', {}, false)], 'milk')).toMatchObject({
    state: 'not-stated',
    freeFromAllowed: false,
    from: ['Sauce'],
  })
})

test('a mark "not named" on a label nobody read is worth nothing', () => {
  expect(markOf(part('Sauce', { milk: 'not-named' }, false), 'milk')).toBe('not-stated')
})

test('the gravest mark wins and names who carries it', () => {
  const parts = [part('Milk', { milk: 'contains' }), part('Sauce', { milk: 'may-contain' }), part('Syrup', {}, false)]
  expect(stateOf(parts, 'milk')).toMatchObject({ state: 'contains', from: ['Milk'], freeFromAllowed: false })
  expect(allergensOf(parts, 'eu').unread).toEqual(['Syrup'])
})

test('a drink of which nothing is known is free from nothing', () => {
  expect(allergensOf([], 'us').rows.every((row) => !row.freeFromAllowed && row.state === 'not-stated')).toBe(true)
})

test('wheat is a cereal with gluten, and gluten may be wheat', () => {
  expect(markOf(part('Malt', { wheat: 'contains' }), 'gluten-cereals')).toBe('contains')
  expect(markOf(part('Malt', { 'gluten-cereals': 'contains' }), 'wheat')).toBe('may-contain')
  expect(markOf(part('Oats', { 'gluten-cereals': 'contains', wheat: 'not-named' }), 'wheat')).toBe('not-named')
})

test('adding a part never makes an allergen less grave, and order does not matter', () => {
  const mark = fc.constantFrom<AllergenMark>('contains', 'may-contain', 'not-stated', 'not-named')
  const some = fc.record({
    name: fc.string(),
    marks: fc.dictionary(fc.constant('milk'), mark),
    labelRead: fc.boolean(),
  })
  const grave = ['not-named', 'not-stated', 'may-contain', 'contains']
  fc.assert(
    fc.property(fc.array(some, { minLength: 1 }), some, (parts, more) => {
      const before = stateOf(parts, 'milk')?.state ?? ''
      const after = stateOf([...parts, more], 'milk')?.state ?? ''
      expect(grave.indexOf(after)).toBeGreaterThanOrEqual(grave.indexOf(before))
      expect(stateOf([more, ...parts], 'milk')?.state).toBe(after)
    }),
  )
})

test('what stands in is graver where it contains, may contain or does not state what the other did not', () => {
  const milk = allergensOf([part('Milk', { milk: 'contains', soybeans: 'may-contain' })], 'us')
  const graver = (...parts: AllergenPart[]) =>
    graverThan(milk, allergensOf(parts, 'us')).map(({ id, state }) => [id, state])
  expect(graver(part('Soy drink', { soybeans: 'contains' }), part('Cream', { milk: 'contains' }))).toEqual([
    ['soybeans', 'contains'],
  ])
  expect(graver(part('Milk', { milk: 'may-contain' }))).toEqual([])
  expect(graver(part('Sauce', {}, false)).map(([id]) => id)).not.toContain('milk')
  expect(graver(part('Sauce', {}, false))).toContainEqual(['eggs', 'not-stated'])
})

test('labels in words: contains first, and nothing is called absent while a label is unread', () => {
  const said = (...parts: AllergenPart[]) => sayAllergens(allergensOf(parts, 'eu'))
  const milk = part('Milk', { milk: 'contains' })
  expect(said(milk, part('Nuts', { 'tree-nuts': 'may-contain', lupin: 'not-stated' }))).toEqual([
    'Contains: Milk.',
    'May contain: Tree nuts.',
    'Not stated: Lupin.',
  ])
  expect(said(milk, part('Paste', {}, false))).toEqual([
    'Contains: Milk.',
    'Not stated: all others of the list.',
    'Labels not read: Paste. No allergen may be called absent until they are.',
  ])
  expect(said(part('Water')).join()).toMatch(/No allergen of the list is named on the labels.*cannot be ruled out/)
  expect(said().join()).toContain('Not stated: Cereals with gluten')
})
