import { expect, test } from 'vitest'
import type { AllergenMark } from '@/lib/drink/allergen'
import type { BuildLine, Composition } from '@/lib/drink/trial'
import { panelCautions } from '@/lib/tasks/plan/panel-cautions'
import { aBatch, aLine, aTrial } from '../../../support/drink-lines'

const unknown: Composition = {
  water: null,
  sugars: null,
  freeSugars: null,
  fat: null,
  protein: null,
  energyKcal: null,
  coffeeSolids: null,
  caffeineLow: null,
  caffeineHigh: null,
  sweetness: null,
}
const ingredient = (more: Partial<BuildLine> = {}, figures: Partial<Composition> = {}) =>
  aLine({ composition: { ...unknown, ...figures }, ...more })
const of = (...lines: BuildLine[]) => panelCautions([aTrial(lines)], 'eu')
const says = (...states: AllergenMark[]) => of(...states.map((state) => ingredient({ allergens: { milk: state } })))

test('of several marks on one allergen the gravest is told', () => {
  expect(says('may-contain', 'contains', 'not-stated').contains).toEqual(['Milk'])
  expect(says('not-stated', 'may-contain').mayContain).toEqual(['Milk'])
  expect(says('not-stated').notStated).toEqual(['Milk'])
})

test('labels that nobody has read, and a panel without ingredients, leave the whole list not stated', () => {
  expect(panelCautions([aTrial([ingredient({ labelRead: false })])], 'us').notStated).toHaveLength(9)
  expect(panelCautions([], 'us').notStated).toHaveLength(9)
})

test('labels that were read and name nothing leave nothing to tell', () => {
  const { contains, mayContain, notStated } = of(ingredient())
  expect([contains, mayContain, notStated]).toEqual([[], [], []])
})

test('coffee whose caffeine nobody knows is cautioned; only a stated zero is not', () => {
  expect(of(ingredient({ kind: 'coffee' })).caffeine).toBe(true)
  expect(of(ingredient({ kind: 'coffee' }, { caffeineHigh: 0 })).caffeine).toBe(false)
  expect(of(ingredient({}, { caffeineHigh: 1.2 })).caffeine).toBe(true)
})

test('what may hold caffeine or sugar and does not say is cautioned; what cannot is not', () => {
  // cocoa, tea, kola: of another kind, and nobody wrote down what is in them
  expect(of(ingredient()).caffeine).toBe(true)
  expect(of(ingredient({}, { caffeineHigh: 0 })).caffeine).toBe(false)
  // an oat drink may be sweetened
  expect(of(ingredient({ kind: 'milk' })).sugar).toBe(true)
  for (const kind of ['water', 'ice'] as const) {
    const { caffeine, sugar } = of(ingredient({ kind }))
    expect([caffeine, sugar]).toEqual([false, false])
  }
  expect(of(ingredient({ kind: 'sweetener' })).caffeine).toBe(false)
})

test('milk, plant drink and sugar are cautioned as well', () => {
  expect(of(ingredient({ kind: 'milk' })).milk).toBe(true)
  expect(of(ingredient({ kind: 'sweetener' })).sugar).toBe(true)
  expect(of(ingredient({ kind: 'sweetener' }, { sugars: 0 })).sugar).toBe(false)
})

test('the café’s own list decides which allergens are named; an unknown list is our fault', () => {
  const sesame = [aTrial([ingredient({ allergens: { sesame: 'contains' } })])]
  expect(panelCautions(sesame, 'ph').contains).toEqual([])
  expect(panelCautions(sesame, 'us').contains).toEqual(['Sesame'])
  expect(() => panelCautions([], 'moon')).toThrow(RangeError)
})

test('what went into a batch is told, and so is what only may have been in the glass', () => {
  const sesame = ingredient({ kind: 'coffee', allergens: { sesame: 'contains' } })
  const batch = ingredient({ kind: 'sweetener', preparation: aBatch([sesame]) })
  const told = panelCautions(
    [
      aTrial([batch]),
      aTrial([], {
        beside: [
          {
            line: ingredient({ kind: 'milk', allergens: { milk: 'contains' } }),
            insteadOf: 'Water',
            level: 'economy',
            why: 'not-said',
          },
        ],
      }),
    ],
    'eu',
  )
  expect(told.contains).toEqual(['Milk', 'Sesame'])
  expect([told.caffeine, told.milk]).toEqual([true, true])
})
