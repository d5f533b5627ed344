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
const tray = { cups: 4, portionMl: 60 }
const of = (...lines: BuildLine[]) => panelCautions([aTrial(lines)], 'eu', tray)
const warns = (kind: string, ...lines: BuildLine[]) => of(...lines).said.some((one) => one.kind === kind)
const says = (...states: AllergenMark[]) => of(...states.map((state) => ingredient({ allergens: { milk: state } })))

test('of several marks on one allergen the gravest is told', () => {
  expect(says('may-contain', 'contains', 'not-stated').contains).toEqual(['Milk'])
  expect(says('not-stated', 'may-contain').mayContain).toEqual(['Milk'])
  expect(says('not-stated').notStated).toEqual(['Milk'])
})

test('labels that nobody has read, and a panel without ingredients, leave the whole list not stated', () => {
  expect(panelCautions([aTrial([ingredient({ labelRead: false })])], 'us', tray).notStated).toHaveLength(9)
  expect(panelCautions([], 'us', tray).notStated).toHaveLength(9)
})

test('labels that were read and name nothing leave nothing to tell', () => {
  const { contains, mayContain, notStated } = of(ingredient())
  expect([contains, mayContain, notStated]).toEqual([[], [], []])
})

test('coffee whose caffeine nobody knows is cautioned; only a stated zero is not', () => {
  expect(warns('caffeine', ingredient({ kind: 'coffee' }))).toBe(true)
  expect(warns('caffeine', ingredient({ kind: 'coffee' }, { caffeineHigh: 0 }))).toBe(false)
  expect(warns('caffeine', ingredient({}, { caffeineHigh: 1.2 }))).toBe(true)
})

test('what may hold caffeine or sugar and does not say is cautioned; what cannot is not', () => {
  // cocoa, tea, kola: of another kind, and nobody wrote down what is in them
  expect(warns('caffeine', ingredient())).toBe(true)
  expect(warns('caffeine', ingredient({}, { caffeineHigh: 0 }))).toBe(false)
  // an oat drink may be sweetened
  expect(warns('sugar', ingredient({ kind: 'milk' }))).toBe(true)
  for (const kind of ['water', 'ice'] as const) {
    const here = ingredient({ kind })
    expect([warns('caffeine', here), warns('sugar', here)]).toEqual([false, false])
  }
  expect(warns('caffeine', ingredient({ kind: 'sweetener' }))).toBe(false)
})

test('milk, plant drink and sugar are cautioned as well', () => {
  expect(warns('milk', ingredient({ kind: 'milk' }))).toBe(true)
  expect(warns('sugar', ingredient({ kind: 'sweetener' }))).toBe(true)
  expect(warns('sugar', ingredient({ kind: 'sweetener' }, { sugars: 0 }))).toBe(false)
})

test('the café’s own list decides which allergens are named; an unknown list is our fault', () => {
  const sesame = [aTrial([ingredient({ allergens: { sesame: 'contains' } })])]
  expect(panelCautions(sesame, 'ph', tray).contains).toEqual([])
  expect(panelCautions(sesame, 'us', tray).contains).toEqual(['Sesame'])
  expect(() => panelCautions([], 'moon', tray)).toThrow(RangeError)
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
    tray,
  )
  expect(told.contains).toEqual(['Milk', 'Sesame'])
  expect(told.said.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['caffeine', 'milk']))
})
