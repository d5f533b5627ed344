import { expect, test } from 'vitest'
import { atLevel, costLevels, madeAt } from '@/lib/drink/cost-level'
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

const almond = aLine({ key: 'm', name: 'Almond drink', kind: 'milk', role: 'milk', density: 1.01 })
const economy = { id: 'e', name: 'economy' }

test('a trial made at a level has what the level used on its lines, and says in the place of what', () => {
  const made = madeAt(trial, economy, [
    { key: 'm', level: economy, line: almond },
    { key: 's', level: { id: 'p', name: 'premium' }, line: almond },
  ])
  expect(made.level).toBe('economy')
  expect(made.beside).toEqual([])
  expect(made.lines.map(({ name, insteadOf, targetGrams }) => [name, insteadOf, targetGrams])).toEqual([
    ['Almond drink', 'Evaporated milk', 60],
    ['Syrup', null, 20],
  ])
})

test('while no level is said, each may have been used: the lines stay, the others count beside them, each once', () => {
  const made = madeAt(trial, null, [
    { key: 'm', level: economy, line: almond },
    { key: 'm', level: { id: 'p', name: 'premium' }, line: almond },
  ])
  expect(made.lines).toEqual(trial.lines)
  expect(made.beside.map(({ line, ...said }) => [line.name, said])).toEqual([
    ['Almond drink', { insteadOf: 'Evaporated milk', level: 'economy, premium', why: 'not-said' }],
  ])
})

test('grams are held at a level; a volume and its density were typed for what is no longer there', () => {
  const poured = (unit: string) => {
    const typed = { amount: 60, unit, density: 1.065 }
    const of = aTrial([{ ...milk('Evaporated milk', 0), kind: 'milk', role: 'milk', typed }])
    return madeAt(of, economy, [{ key: 'm', level: economy, line: { ...almond, kind: 'other', role: 'other' } }])
      .lines[0]
  }
  expect(poured('ml')).toMatchObject({ typed: null, density: 1.01, kind: 'other', role: 'other', targetGrams: 60 })
  expect(poured('g')).toMatchObject({ typed: { amount: 60, unit: 'g', density: null } })
})
