import { expect, test } from 'vitest'
import { warmthAsked, withWarmth } from '@/lib/drink/jug-warmth'
import { toMl } from '@/lib/drink/to-ml'
import { aBatch, aLine, aTrial, ice } from '../../support/drink-lines'

const milk = aLine({ key: 'milk', name: 'Milk', kind: 'milk', temperature: null })
const coffee = aLine({ key: 'coffee', name: 'Coffee', kind: 'coffee', temperature: null })
const unsaid = { coffeeTemperature: null, iceTemperature: null }

test('what nobody has said is asked once, in the order poured, and nothing where nothing can melt', () => {
  const both = [aTrial([coffee, milk, ice(50)], unsaid), aTrial([milk, coffee, ice(80)], unsaid)]
  expect(warmthAsked(both)).toEqual([
    { name: 'Coffee', isIce: false },
    { name: 'Milk', isIce: false },
    { name: ice(50).name, isIce: true },
  ])
  expect(warmthAsked([aTrial([coffee, milk], unsaid)])).toEqual([])
  expect(warmthAsked([aTrial([coffee, aLine({ temperature: 4 }), ice(50)])])).toEqual([])
})

test('a frozen batch is no ice: nothing melts where only that is cold', () => {
  const frozen = aLine({ name: 'Frozen cream', form: 'ice', preparation: aBatch([milk]), temperature: null })
  expect(warmthAsked([aTrial([milk, frozen], unsaid)])).toEqual([])
})

test('what is measured stands where nobody had said it, and what a sheet says stays', () => {
  const build = aTrial([coffee, aLine({ name: 'Syrup', temperature: 20 }), ice(50)], unsaid)
  const asked = toMl(build, 500, 'strained')
  expect(asked.known).toBe(false)
  const measured = new Map([
    ['Coffee', 4],
    ['Syrup', 90],
    [ice(50).name, -2],
  ])
  const told = withWarmth(build, measured)
  expect(told.lines.map(({ temperature }) => temperature)).toEqual([4, 20, -2])
  expect(toMl(told, 500, 'strained').known).toBe(true)
  expect(toMl(withWarmth(build, new Map([['Coffee', 4]])), 500, 'strained').known).toBe(false)
})
