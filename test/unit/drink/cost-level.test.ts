import { expect, test } from 'vitest'
import { atLevel, costLevels } from '@/lib/drink/cost-level'
import { aLine, aTrial } from '../../support/drink-lines'

const milk = (name: string, costPerGram: number) => aLine({ key: 'm', name, costPerGram, targetGrams: 60 })
const trial = {
  ...aTrial([milk('Evaporated milk', 0.004), aLine({ key: 's', name: 'Syrup', costPerGram: 0.001, targetGrams: 20 })]),
  money: { ...aTrial([]).money, wasteFraction: 0, packagingCost: 0 },
}
const levels = costLevels(trial, [
  { name: 'standard', alternatives: new Map(), tasted: true },
  { name: 'economy', alternatives: new Map([['m', { ...milk('Blend', 0.002), targetGrams: 999 }]]), tasted: false },
])

test('each level costs the same grams of its own ingredients', () => {
  expect(levels.map(({ cost }) => cost.perGlass.known && cost.perGlass.value.toFixed(4))).toEqual(['0.2600', '0.1400'])
  expect(levels.map(({ lines }) => lines.map(({ name }) => name))).toEqual([
    ['Evaporated milk', 'Syrup'],
    ['Blend', 'Syrup'],
  ])
})

test('only the level that was tasted goes without a warning', () => {
  expect(levels.map(({ tasted, warning }) => [tasted, warning])).toEqual([
    [true, null],
    [false, 'economy was not tasted: its cost is known, its liking is not.'],
  ])
})

test('a level for a line the trial does not have changes nothing', () => {
  expect(atLevel(trial, new Map([['x', milk('Blend', 1)]]))).toEqual(trial)
})
